/** Where every target of the tests says that it is to be found. */
export const PUBLIC_URL = "http://motefall.test";
