/** Today where the person sits: late in the day in the west it is tomorrow already by the clock of the world. */
export function today(now = new Date()): string {
  const two = (part: number) => String(part).padStart(2, '0')
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`
}
