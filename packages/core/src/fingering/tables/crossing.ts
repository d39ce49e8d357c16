/** Weights of `crossing` in grains, fitted by tests/fitting; not to be edited by hand. */
export const grains = `
156 287 2 226 32 7 187 40 1011 40
`;
