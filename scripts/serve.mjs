// Serves dist/ to this machine alone: 127.0.0.1, port 3000 or the next one free. Opens the default browser when there is one.
import { spawn } from 'node:child_process'
import { createReadStream, existsSync, readFileSync, statSync } from 'node:fs'
import { createServer } from 'node:http'
import { dirname, extname, join, normalize, sep } from 'node:path'
import { pipeline } from 'node:stream'
import { fileURLToPath } from 'node:url'
import { gzipSync } from 'node:zlib'
import { build } from './build.mjs'

const dist = join(dirname(fileURLToPath(import.meta.url)), '..', 'dist')
const types = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json',
  '.xml': 'application/xml',
  '.png': 'image/png',
  '.txt': 'text/plain; charset=utf-8',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
  '.ttf': 'font/ttf',
  '.svg': 'image/svg+xml',
}
const TRIES = 50

/** What gets smaller, packed once as long as the file stays as it is. */
const packable = /\.(?:js|css|html|json|xml|svg|txt)$/
const packedFiles = new Map()
function packedOnce(file, tag) {
  const known = packedFiles.get(file)
  if (known?.tag === tag) return known.bytes
  const bytes = gzipSync(readFileSync(file), { level: 6 })
  packedFiles.set(file, { tag, bytes })
  return bytes
}

export function handler(request, response) {
  const refuse = (code, words) => response.writeHead(code, { 'Content-Type': 'text/plain; charset=utf-8' }).end(words)
  // A page of another name that points here must not read what is here.
  if (!/^(?:127\.0\.0\.1|localhost)(?::\d+)?$/.test(request.headers.host ?? '')) return refuse(403, 'This server answers on this machine only.')
  if (request.method !== 'GET' && request.method !== 'HEAD') return refuse(405, 'Only reading.')
  let path
  try {
    path = decodeURIComponent(new URL(request.url, 'http://localhost').pathname)
  } catch {
    return refuse(400, 'No such address.')
  }
  const file = normalize(join(dist, path === '/' ? 'index.html' : path))
  // A folder beside it whose name begins alike is not ours to show.
  if (!file.startsWith(dist + sep) || !existsSync(file) || !statSync(file).isFile()) return refuse(404, 'Not here.')
  const { size, mtimeMs } = statSync(file)
  const tag = `"${size.toString(16)}-${Math.round(mtimeMs).toString(16)}"`
  const known = (request.headers['if-none-match'] ?? '').split(',').map((one) => one.trim().replace(/^W\//, ''))
  const unchanged = known.includes(tag) || known.includes('*')
  const packed = !unchanged && /\bgzip\b(?!\s*;\s*q=0(?:\.0*)?\s*(?:,|$))/.test(request.headers['accept-encoding'] ?? '') && packable.test(file) ? packedOnce(file, tag) : undefined
  response.writeHead(unchanged ? 304 : 200, {
    Vary: 'Accept-Encoding',
    ...(packed ? { 'Content-Encoding': 'gzip', 'Content-Length': packed.length } : {}),
    'Content-Type': types[extname(file)] ?? 'application/octet-stream',
    'X-Content-Type-Options': 'nosniff',
    'Referrer-Policy': 'no-referrer',
    'Cache-Control': 'no-cache',
    ETag: tag,
    // A spreadsheet on the web reads what the functions are from its own address.
    ...(/[\\/]functions\.js(?:on)?$/.test(file) ? { 'Access-Control-Allow-Origin': '*' } : {}),
    // The workbook page stands in no other page's frame; the pane stands in the spreadsheet's.
    ...(extname(file) === '.html' && !file.endsWith(`${sep}taskpane.html`) ? { 'Content-Security-Policy': "frame-ancestors 'none'" } : {}),
  })
  if (request.method === 'HEAD' || unchanged) response.end()
  else if (packed) response.end(packed)
  // A reader that goes away closes the file too.
  else pipeline(createReadStream(file), response, () => undefined)
}

/** Listens on the wanted port or the next one free; answers the port. */
export function listen(server, wanted) {
  return new Promise((resolve, reject) => {
    let port = wanted
    server.on('error', (error) => {
      if (error.code === 'EADDRINUSE' && port < wanted + TRIES) server.listen(++port, '127.0.0.1')
      else reject(error)
    })
    server.on('listening', () => resolve(port))
    server.listen(port, '127.0.0.1')
  })
}

function openBrowser(address) {
  if (process.env.CI || process.env.NO_BROWSER) return
  const [command, words] =
    process.platform === 'darwin'
      ? ['open', [address]]
      : process.platform === 'win32'
        ? ['cmd', ['/c', 'start', '', address]]
        : process.env.DISPLAY || process.env.WAYLAND_DISPLAY
          ? ['xdg-open', [address]]
          : []
  if (command)
    spawn(command, words, { stdio: 'ignore', detached: true })
      .on('error', () => undefined)
      .unref()
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  build()
  const wanted = Number(process.env.PORT ?? 3000)
  if (!Number.isInteger(wanted) || wanted < 1 || wanted > 65_535 - TRIES) {
    console.error(`PORT: a whole number, 1 to ${65_535 - TRIES}; got ${process.env.PORT}.`)
    process.exit(1)
  }
  const port = await listen(createServer(handler), wanted)
  const address = `http://127.0.0.1:${port}/`
  console.log(`Cistern Sheet is open at ${address} (this machine only; Ctrl+C ends it).`)
  openBrowser(address)
}
