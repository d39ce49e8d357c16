/** Weights of `stretch` in grains, fitted by tests/fitting; not to be edited by hand. */
export const grains = `
5 6 11 *2 6 0 1
`;
