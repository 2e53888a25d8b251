import js from '@eslint/js';
import svelte from 'eslint-plugin-svelte';
import globals from 'globals';
import ts from 'typescript-eslint';
import svelteConfig from './svelte.config.js';

export default ts.config(
	{ ignores: ['build/', '.svelte-kit/', 'data/', 'node_modules/', 'fixtures/', 'static/'] },
	js.configs.recommended,
	...ts.configs.strictTypeChecked,
	...ts.configs.stylisticTypeChecked,
	...svelte.configs.recommended,
	{
		languageOptions: {
			globals: { ...globals.browser, ...globals.node },
			parserOptions: {
				projectService: { allowDefaultProject: ['eslint.config.js', 'svelte.config.js'] },
				tsconfigRootDir: import.meta.dirname,
				extraFileExtensions: ['.svelte']
			}
		},
		rules: {
			// Numbers in messages are what this program is about.
			'@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
			'@typescript-eslint/consistent-type-definitions': ['error', 'interface'],
			'@typescript-eslint/no-confusing-void-expression': ['error', { ignoreArrowShorthand: true }],
			eqeqeq: 'error',
			'no-eval': 'error',
			'no-implied-eval': 'error'
		}
	},
	{
		files: ['**/*.svelte', '**/*.svelte.ts'],
		languageOptions: { parserOptions: { parser: ts.parser, svelteConfig } }
	},
	{
		// The benchmark's floor is straight-line on purpose; its indexes are in range by construction.
		files: ['tests/bench/straight-line.ts'],
		rules: { '@typescript-eslint/no-non-null-assertion': 'off' }
	},
	{ files: ['**/*.js', '**/*.mjs'], ...ts.configs.disableTypeChecked }
);
