/** Weights of `stretch` in grains, fitted by tests/fitting; not to be edited by hand. */
export const grains = `
25 28 55 1 2 35 1 20
`;
