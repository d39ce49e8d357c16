/** Weights of `thumb on black` in grains, fitted by tests/fitting; not to be edited by hand. */
export const grains = `
617
`;
