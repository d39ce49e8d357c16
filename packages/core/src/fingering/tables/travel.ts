/** Weights of `travel` in grains, fitted by tests/fitting; not to be edited by hand. */
export const grains = `
34 34 34 15
`;
