/** The demo and the API processes on it have to share one. */
export const secretKey = 'only for tests, but long enough to be used';
