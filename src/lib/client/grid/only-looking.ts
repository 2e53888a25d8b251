/** What someone is told who may see the openings and not change them. */
export const onlyLooking = 'You can look; the estimator changes openings.';
