/** Weights of `travel` in grains, fitted by tests/fitting; not to be edited by hand. */
export const grains = `
37 36 37 16
`;
