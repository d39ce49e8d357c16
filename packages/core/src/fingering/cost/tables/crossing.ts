/** Weights of `crossing` in grains, fitted by tests/fitting; not to be edited by hand. */
export const grains = `
166 235 1 163 83 3 172 76 901 234
`;
