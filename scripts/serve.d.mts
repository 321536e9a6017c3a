import type { IncomingMessage, Server, ServerResponse } from 'node:http'
export function handler(request: IncomingMessage, response: ServerResponse): void
export function listen(server: Server, wanted: number): Promise<number>
