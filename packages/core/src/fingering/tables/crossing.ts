/** Weights of `crossing` in grains, fitted by tests/fitting; not to be edited by hand. */
export const grains = `
167 234 1 164 84 3 172 76 902 234
`;
