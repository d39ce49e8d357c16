/** Weights of `travel` in grains, fitted by tests/fitting; not to be edited by hand. */
export const grains = `
33 33 34 14
`;
