/** Weights of `crossing` in grains, fitted by tests/fitting; not to be edited by hand. */
export const grains = `
151 242 2 215 35 7 146 42 1017 44
`;
