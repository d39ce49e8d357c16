/** Weights of `crossing` in grains, fitted by tests/fitting; not to be edited by hand. */
export const grains = `
7 49 0 37 2 1 44 5 203 7
`;
