/** Weights of `stretch` in grains, fitted by tests/fitting; not to be edited by hand. */
export const grains = `
24 30 53 1 1 58 1 20
`;
