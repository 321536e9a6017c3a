import parser from '@typescript-eslint/parser'
import officeAddins from 'eslint-plugin-office-addins'

export default [
  { ignores: ['dist/', 'out/', 'node_modules/', '.cache/', 'coverage/', '**/*.d.mts'] },
  ...officeAddins.configs.recommended,
  {
    files: ['**/*.ts'],
    plugins: { 'office-addins': officeAddins },
    languageOptions: { parser, parserOptions: { project: './tsconfig.json', tsconfigRootDir: import.meta.dirname } },
    rules: {
      'no-undef': 'off',
      'no-redeclare': 'off',
      'no-unused-vars': 'off',
      '@typescript-eslint/no-unused-vars': ['error', { varsIgnorePattern: '^_', argsIgnorePattern: '^_' }],
      'prettier/prettier': 'off',
    },
  },
  // The grid and the file library have a getCell of their own, which these two rules take for Office's.
  { files: ['src/hosts/grid.ts', 'src/hosts/file.ts'], rules: { 'office-addins/call-sync-before-read': 'off', 'office-addins/load-object-before-read': 'off' } },
  {
    files: ['**/*.mjs'],
    languageOptions: {
      ecmaVersion: 'latest',
      sourceType: 'module',
      parserOptions: { ecmaVersion: 'latest', sourceType: 'module' },
      globals: { console: 'readonly', process: 'readonly', URL: 'readonly', setTimeout: 'readonly', Buffer: 'readonly' },
    },
    rules: { 'prettier/prettier': 'off' },
  },
]
