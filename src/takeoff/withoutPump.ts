/** What a job without a pump leaves out: the pump, its power, and what holds its pressure. */
const sections: readonly string[] = ['Pump and drop', 'Power']
const codes: readonly string[] = ['PRESSURE-TANK', 'RELIEF']

export const isOfPump = ({ key, section }: { key: string; section: string }): boolean => sections.includes(section) || codes.includes(key)
/** As the cell Without takes it. */
export const WITHOUT_PUMP = [...sections, ...codes].join(', ')
