/** Weights of `crossing` in grains, fitted by tests/fitting; not to be edited by hand. */
export const grains = `
11 69 0 44 6 0 50 4 202 9
`;
