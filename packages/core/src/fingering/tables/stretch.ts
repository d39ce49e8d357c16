/** Weights of `stretch` in grains, fitted by tests/fitting; not to be edited by hand. */
export const grains = `
24 28 54 1 2 35 1 18
`;
