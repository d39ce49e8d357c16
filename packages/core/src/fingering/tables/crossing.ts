/** Weights of `crossing` in grains, fitted by tests/fitting; not to be edited by hand. */
export const grains = `
242 350 1 255 68 6 244 63 1065 74
`;
