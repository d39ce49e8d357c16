/** Weights of `travel` in grains, fitted by tests/fitting; not to be edited by hand. */
export const grains = `
7 8 7 3
`;
