import { arg } from '../../calc.js'

export const outsideLength = arg('Outside length', { least: 0.1, most: 200 })
export const outsideWidth = arg('Outside width', { least: 0.1, most: 200 })
export const outsideHeight = arg('Outside height', { least: 0.1, most: 100 })
