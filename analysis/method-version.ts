/** Version of the method that a result names. Raw runs never change; a new version adds results beside the old. */
export const METHOD_VERSION = "1.0.0";

/** Its place in the method's changelog, from 1: which of two versions is newer. */
export const METHOD_ORDINAL = 1;
