/** Steps of the crew as earlier versions wrote them in plain words: on a sheet made then they are ours and nobody's. */
export const olderSteps: Readonly<Record<string, readonly string[]>> = {
  A3: ['Crane on firm ground, the maker’s lifting points, nobody under or beside a hanging tank.'],
  A7: ['Bank the pit’s edge against surface water, a pump stands ready; before a storm, water into the tanks.'],
  C7: ['Risers on sealant to grade, locking lids.'],
  D1: ['Plates with sealant on all openings.', 'Plates with sealant on all openings, plugs in all 4 in holes and one in the pump coupling.'],
  D5: [
    'Plugs in every 4 in hole, tie ends from inside, and one in the pump coupling.',
    'Plugs in every port, and one in the pump coupling.',
    'Plugs in every tie and port, tie ends from inside, and one in the pump coupling.',
  ],
  E10: [
    'The house end of the line is shut before water goes into the tanks: the coupling is open into it, and ballast would run out.',
    'The house end of the line keeps its plug, or is shut, before water goes into the tanks: the coupling is open into it, and ballast would run out.',
  ],
  E5: [
    'Line under pressure with its joints open to view, before anything covers them; no drop may show.',
    'Press the line with a hand pump and water, never air, while its joints lie open to view; no drop may show, no joint may weep.',
    'Press the line with a hand pump and water, never air, while its joints lie open to view; top it up until the pipe has stretched: then no drop may show, no joint may weep.',
    'Close both ends of the line with plugs; press it with a hand pump and water, never air, while its joints lie open to view; top it up until the pipe has stretched: then no drop may show, no joint may weep.',
  ],
  F2: ['Direct-burial, submersible-rated cable with slack in the tank and under the drop, so that settling draws slack and not the splice.'],
  F3: ['A licensed electrician connects, locked out: disconnect, ground-fault protection and breaker as the adopted code asks.'],
  G1: ['Water into the tanks as ballast before the pit pump stops: an empty tank can float.'],
  G2: [
    'Stone at the pump end to above the water line, fabric, then 6 in of clean earth over the line.',
    'Stone round the ties and at the pump end up to the line, so that both lie on it.',
    'Stone at the pump end up to the line, so that it lies on it.',
  ],
  G3: ['Backfill in even layers round the tanks, free of rock and debris. Warning tape 12 in over line and cable.', 'Backfill on in even layers, rock-free, up to the lids.'],
  G5: ['Rock-free fill in even layers round the tanks, all sides alike, up to the ports.'],
  G7: ['Looked at, then the rest of the fill, rock-free, over lids, conduit, drains and cable; warning tape 12 in over line and cable; trenches filled and tamped.'],
  H1: ['Run the pump with the house tap open; read flow and pressure.', 'Run the pump with the house tap open; read flow, pressure and amperes.'],
  H3: [
    'Owner shown: filter, first wash, cut-off, drawing the pump. This sheet and the test log handed over.',
    'Owner shown: filter, first-wash diverter, cut-off, drawing the pump. This sheet and the test log handed over.',
  ],
  H4: ['Disinfect tanks and line, and flush, before anyone uses the water.'],
  H5: ['First fill: clean water over the intake.'],
  K3: ['Treatment set behind tank and switch: filters, lamp, a tap ahead of it and one behind.'],
  I1: [
    'Inlet and overflow drains on their bedding on the compacted fill, first-wash diverter and cleanouts; calmed inlet, screened vents, flap and stone apron at the outfall.',
    'Inlet and overflow drains on their bedding on the compacted fill, cleanouts; calmed inlet, screened vents, flap and stone apron at the outfall.',
    'Inlet and overflow drains on their bedding, first-wash diverter and cleanouts; calmed inlet, screened vents, flap and stone apron at the outfall.',
  ],
}

/** Who let the work go on at steps where somebody else does now. */
export const olderHolds: Readonly<Record<string, readonly string[]>> = { E10: ['foreman'] }

/** Stages of the work that had another name, in both languages. */
export const olderStages: readonly string[] = ['Upper backfill and cable', 'First fill and pump', 'Relleno superior y cable', 'Primer llenado y bomba']

/** The same in Spanish, which stands in lines of its own. */
export const olderSpanish: readonly string[] = [
  'Cierre los dos extremos de la línea con tapones; presiónela con una bomba de mano y agua, nunca aire, mientras las uniones están a la vista; agregue agua hasta que el tubo se haya estirado: después la presión no baja y ninguna unión gotea.',
  'Coloque el tanque con su cople fundido hacia la casa.',
  'Coloque primero el tanque de la bomba, del lado de la casa, con su cople fundido hacia la casa; después los demás.',
  'Drenajes de entrada y de rebose sobre su cama en el relleno compactado, desviador de primeras lluvias y registros de limpieza; entrada calmada, ventilas con malla, chapaleta y protección de piedra en la descarga.',
  'Drenajes de entrada y de rebose sobre su cama en el relleno compactado, registros de limpieza; entrada calmada, ventilas con malla, chapaleta y protección de piedra en la descarga.',
  'El extremo de la línea en la casa conserva su tapón, o queda cerrado, antes de echar agua en los tanques: el cople está abierto hacia ella y el lastre se saldría.',
  'Izaje: insertos fundidos del fabricante, eslingas como se calculó, cuerdas guía; nadie debajo ni al lado de un tanque suspendido, nadie en la excavación debajo.',
  'Piedra alrededor de las conexiones y en el extremo de la bomba hasta la línea, para que las dos descansen sobre ella.',
  'Piedra en el extremo de la bomba hasta la línea, para que descanse sobre ella.',
  'Placas con sellador en todas las aberturas.',
  'Tapones en cada conexión y en cada puerto, las conexiones desde adentro, y uno en el cople de la bomba.',
  'Tapones en cada puerto, y uno en el cople de la bomba.',
  'Excave la zanja de la línea de agua y del cable; la tierra lejos del borde.',
  'El agua subterránea queda más alta que los drenajes: solo ahora se puede parar la bomba de la excavación.',
  'El extremo de la línea en la casa queda cerrado antes de echar agua en los tanques: el cople está abierto hacia ella y el lastre se saldría.',
  'Inspeccionado; después el resto del relleno, sin rocas, sobre tapas, conduit, drenajes y cable; cinta de advertencia 12 pulgadas sobre línea y cable; zanjas rellenas y apisonadas.',
  'Haga un bordo contra el agua de lluvia en la orilla de la excavación y tenga una bomba lista; antes de una tormenta, agua en los tanques.',
  'Muestre al dueño: filtro, primeras lluvias, corte, cómo sacar la bomba. Entregue esta hoja y el registro de pruebas.',
  'Presione la línea con una bomba de mano y agua, nunca aire, mientras las uniones están a la vista; agregue agua hasta que el tubo se haya estirado: después la presión no baja y ninguna unión gotea.',
  'Primer llenado: agua limpia por encima de la toma.',
  'Relleno sin rocas en capas parejas alrededor de los tanques, igual por todos los lados, hasta las bocas.',
  'Siga rellenando en capas parejas, sin rocas, hasta las tapas.',
  'Tratamiento después del tanque y del interruptor: filtros, lámpara, una llave antes y otra después.',
]
