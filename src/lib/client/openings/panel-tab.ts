/** What the panel of the selected opening shows under its drawing. */
export type PanelTab = 'results' | 'engineering' | 'checks' | 'working';
