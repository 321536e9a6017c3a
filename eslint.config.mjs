import parser from '@typescript-eslint/parser'
import officeAddins from 'eslint-plugin-office-addins'

export default [
  { ignores: ['dist/', 'out/', 'node_modules/', '.cache/', 'coverage/'] },
  ...officeAddins.configs.recommended,
  {
    files: ['**/*.ts'],
    plugins: { 'office-addins': officeAddins },
    languageOptions: { parser, parserOptions: { project: './tsconfig.json', tsconfigRootDir: import.meta.dirname } },
    rules: {
      'no-undef': 'off',
      'no-unused-vars': 'off',
      '@typescript-eslint/no-unused-vars': ['error', { varsIgnorePattern: '^_', argsIgnorePattern: '^_' }],
      'prettier/prettier': 'off',
    },
  },
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
