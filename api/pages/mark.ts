/** The registry's mark: motes that fall and fade. */
export const MARK = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 32 32"><rect width="32" height="32" rx="6" fill="#1d2327"/><g fill="#56b4e9"><circle cx="9" cy="8" r="3.6"/><circle cx="17" cy="17" r="2.6"/><circle cx="24" cy="25" r="1.7"/></g></svg>\n`;
