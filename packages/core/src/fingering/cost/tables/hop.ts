/** Weights of `hop` in grains, fitted by tests/fitting; not to be edited by hand. */
export const grains = `
1694 1532 831 599 834 450
`;
