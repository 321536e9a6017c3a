/** A drawing as it is put down: what comes later lies over what came before. */
import type { Label, Point, Shape, ShapeRole } from './picture.js'

export class PictureDraft {
  readonly shapes: Shape[] = []
  readonly labels: Label[] = []

  area(role: ShapeRole, points: readonly Point[]): void {
    this.shapes.push({ kind: 'area', role, points })
  }

  /** A line, or a pipe of an outside diameter. */
  path(role: ShapeRole, points: readonly Point[], outside_in?: number): void {
    this.shapes.push({ kind: 'path', role, points, ...(outside_in === undefined ? {} : { outside_in }) })
  }

  circle(role: ShapeRole, at: Point, radius_ft: number): void {
    this.shapes.push({ kind: 'circle', role, at, radius_ft })
  }

  name(lane: Label['lane'], words: string, at: Point, importance: number): void {
    this.labels.push({ lane, words, at, importance })
  }
}
