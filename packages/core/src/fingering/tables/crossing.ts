/** Weights of `crossing` in grains, fitted by tests/fitting; not to be edited by hand. */
export const grains = `
37 245 2 186 12 5 218 27 1017 35
`;
