import CopyPlugin from 'copy-webpack-plugin'
import HtmlPlugin from 'html-webpack-plugin'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

const root = dirname(fileURLToPath(import.meta.url))
const modules = join(root, 'node_modules')
const grid = dirname(createRequire(import.meta.url).resolve('@odoo/o-spreadsheet'))

const shared = {
  mode: 'production',
  context: root,
  devtool: false,
  performance: { hints: false },
  cache: { type: 'filesystem', cacheDirectory: join(root, '.cache/webpack') },
  module: {
    rules: [
      { test: /\.ts$/, loader: 'ts-loader', options: { transpileOnly: true, compilerOptions: { noEmit: false } } },
      { test: /\.xml$/, type: 'asset/source' },
    ],
  },
  resolve: { extensions: ['.ts', '.js'], extensionAlias: { '.js': ['.ts', '.js'] } },
  output: { path: join(root, 'dist'), filename: '[name].js', chunkFilename: '[name].js', publicPath: '' },
}

/** What goes into Excel: the pane with the functions, and the functions alone. Nothing of the grid enters here. */
const addin = {
  ...shared,
  name: 'addin',
  entry: { taskpane: './taskpane/excel.ts', functions: './functions/functions.ts' },
  plugins: [
    new HtmlPlugin({ template: './taskpane/taskpane.html', filename: 'taskpane.html', chunks: ['taskpane'], inject: 'body' }),
    new CopyPlugin({ patterns: [{ from: 'taskpane/assets', to: 'assets' }, { from: 'taskpane/pane.css' }, { from: 'taskpane/help.css' }, { from: 'manifest.xml' }] }),
  ],
}

/** The local workbook page: the grid, its styles and its licence beside the pane. */
const local = {
  ...shared,
  name: 'local',
  output: { ...shared.output, chunkFilename: 'local-[name].js' },
  entry: { local: './taskpane/local.ts' },
  // Served from this machine alone: making it small would only make the first start slow.
  optimization: { minimize: false },
  resolve: { ...shared.resolve, alias: { '@odoo/o-spreadsheet$': join(grid, 'o_spreadsheet.esm.js') } },
  plugins: [
    new HtmlPlugin({ template: './taskpane/local.html', filename: 'index.html', chunks: ['local'], inject: 'body' }),
    new CopyPlugin({
      patterns: [
        { from: join(grid, 'o_spreadsheet.css'), to: 'grid/' },
        { from: join(grid, '..', 'LICENSE'), to: 'grid/LICENSE-o-spreadsheet.txt', toType: 'file' },
        { from: join(modules, '@odoo/owl/LICENSE'), to: 'grid/LICENSE-owl.txt', toType: 'file' },
        { from: join(modules, 'bootstrap/dist/css/bootstrap.min.css'), to: 'grid/' },
        { from: join(modules, 'font-awesome/css/font-awesome.min.css'), to: 'grid/css/' },
        { from: join(modules, 'font-awesome/fonts'), to: 'grid/fonts' },
      ],
    }),
  ],
}

export default [addin, local]
