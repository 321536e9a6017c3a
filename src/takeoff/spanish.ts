/**
 * The Crew sheet in Spanish (es-US), keyed by the codes of its English. Terms follow OSHA's English–Spanish pages and makers' manuals.
 * To be read by a native speaker of the trade before use: the sheet says so.
 */
import type { Words } from './template.js'

export const SPANISH_NOTE = 'Español: debe leerlo un hablante nativo del oficio antes de usarse. Spanish: to be read by a native speaker of the trade before use.'

export const spanishStages: Readonly<Record<string, string>> = {
  'Before digging': 'Antes de excavar',
  'Pit and bed': 'Excavación y cama de piedra',
  'Tanks, ties and ports': 'Tanques, conexiones y bocas',
  'Vacuum test': 'Prueba de vacío',
  'Water line': 'Línea de agua',
  'Ballast and lower backfill': 'Lastre y primer relleno',
  Drains: 'Drenajes',
  'Upper backfill': 'Relleno superior',
  Power: 'Electricidad',
  'First fill': 'Primer llenado',
  'Handing over': 'Entrega',
}

/** What stands at the head of the sheet, by its English label: label and words. */
export const spanishFacts: Readonly<Record<string, readonly [label: string, words: Words]>> = {
  PIT: ['EXCAV.', 'fondo {PitLength_ft} x {PitWidth_ft}, arriba {PitTopLength_ft} x {PitTopWidth_ft}, hondo {PitDepth_ft}, paredes clase {PitSoil}, zanja {DeepestTrench_ft}'],
  TANKS: [
    'TANQUES',
    [
      ['TankCount=1', '{TankCount|tanque|tanques}, {HeaviestTank_lb}: {Models}'],
      ['', '{TankCount|tanque|tanques}, hasta {HeaviestTank_lb}, {TankGap_in} entre tanques: {Models}'],
    ],
  ],
  CRANE: ['GRÚA', 'radio {PickRadius_ft}, {PickLoad_lb} en el gancho: {CraneWords}'],
  WATER: [
    'AGUA',
    [
      ['PitWater="not known"', 'agua subterránea: no se sabe; un tanque vacío flota con {FloatDepth_ft} de agua alrededor'],
      ['', 'agua subterránea a {GroundwaterDepth_ft}; un tanque vacío flota con {FloatDepth_ft} de agua alrededor'],
    ],
  ],
  HEIGHTS: [
    'ALTURAS',
    [
      ['TankCount=1', 'bajo el suelo: tapa {LidTop_ft:2}, cama {BedTop_ft:2}, fondo {PitBottom_ft:2}; fondo de tubo en las bocas {PortInvert_ft:2}'],
      ['', 'bajo el suelo: tapas {LidTop_ft:2}, cama {BedTop_ft:2}, fondo {PitBottom_ft:2}; fondo de tubo en las bocas {PortInvert_ft:2}'],
    ],
  ],
  CENTERS: [
    'CENTROS',
    [
      ['TankCount=1', 'bajo el suelo, al centro del tubo: línea {LineCentre_ft:2}'],
      ['', 'bajo el suelo, al centro del tubo: línea {LineCentre_ft:2}, conexiones {TieCentre_ft:2}'],
    ],
  ],
  RESCUE: ['RESCATE', 'dirección, hospital más cercano, rescate: _________________   llame antes de excavar: 811'],
}
export const SPANISH_STILL = 'Siguen los peligros: '
export const SPANISH_LEFT_OUT = 'No es de este trabajo, lo ponen otros: '
export const spanishAnswered = 'Contestado: trabaje como dice la respuesta'
/** Before the first step where a verdict says stop. */
export const spanishDoNotStart = {
  atHead: 'NO EMPIECE antes de que la oficina lo diga: lo que lo impide está abajo del dibujo.',
  heading: 'No empiece',
  words: 'No empiece ningún trabajo: cada punto de arriba puede costar una vida o mucho dinero. Hable con la oficina, que le dice cuándo está resuelto.',
}

/** What a stop is about, by the name of its verdict; its figures stand in the English line above it. */
export const spanishStops: Readonly<Record<string, string>> = {
  SoilVerdict: 'suelo y agua de la excavación',
  PitVerdict: 'profundidad de la excavación',
  DeepTrenchVerdict: 'profundidad de las zanjas',
  FootingVerdict: 'edificios junto a la excavación',
  UpliftVerdict: 'flotación de un tanque vacío',
  BallastVerdict: 'lastre mientras la excavación está abierta',
  WeightVerdict: 'peso de un tanque',
  LiftVerdict: 'grúa',
  VacuumVerdict: 'vacío de la prueba',
  TrafficVerdict: 'tráfico sobre los tanques',
  BearingVerdict: 'suelo bajo la cama de piedra',
  CoverVerdict: 'tierra sobre las tapas',
  RatingVerdict: 'presión en la línea de agua',
  SwitchVerdict: 'interruptor de presión',
  AmpacityVerdict: 'ampacidad del cable',
  SupplyVerdict: 'voltaje de la bomba',
  ReliefVerdict: 'presión que aguanta el tanque de presión',
  TrenchVerdict: 'tierra sobre el cable',
  ConduitCoverVerdict: 'tierra sobre el conduit en la tapa',
  DrainVerdict: 'drenajes de entrada',
  PortVerdict: 'bocas superiores',
  TieVerdict: 'agua de tormenta en los tanques',
  DaylightVerdict: 'salida del rebosadero a la superficie',
  RoomVerdict: 'espacio para trabajar en la excavación',
  FrostVerdict: 'helada',
  DutyVerdict: 'trabajo de la bomba',
  DropVerdict: 'caída de voltaje',
  StartDropVerdict: 'caída de voltaje al arrancar',
  FillVerdict: 'llenado del conduit',
  FittingsVerdict: 'piezas IPS y CTS por separado',
}
export const spanishStop = (name: string): string => `Alto: ${spanishStops[name]}. Las cifras están en la línea de arriba: pida que se las expliquen antes de empezar.`

export const spanishHolds: Readonly<Record<string, string>> = {
  foreman: 'capataz',
  engineer: 'ingeniero',
  'competent person': 'persona competente',
  'crane operator': 'operador de grúa',
  'entry supervisor': 'supervisor de entrada',
  inspector: 'inspector',
  'licensed electrician': 'electricista con licencia',
  'licensed plumber': 'plomero con licencia',
  'engineer or licensed person': 'ingeniero o persona con licencia',
  office: 'oficina',
}
export const spanishHoldFor = (who: string): string => `ESPERE: ${spanishHolds[who]!}`
export const SPANISH_AS_ANSWERED = 'como dice la respuesta'
export const SPANISH_BY_HAND = 'Escrito a mano'

/** Figures to check, by the code of the step. */
export const spanishFigures: Readonly<Record<string, Words>> = {
  A6: 'radio {PickRadius_ft}, {PickLoad_lb} en el gancho',
  A4: 'un tanque flota con {FloatDepth_ft}',
  A7: 'un tanque flota con {FloatDepth_ft}',
  B1: 'fondo {PitLength_ft} x {PitWidth_ft}',
  B8: '{Topsoil_in} de hondo',
  B2: '{PitDepth_ft:2} de hondo',
  B4: '{PitDepth_ft:2} de hondo',
  B6: '{PitDepth_ft:2} de hondo',
  B9: 'a {FenceClear_ft} del borde',
  B5: '{BedThickness_in} de espesor, arriba a {BedTop_ft:2}',
  A2: 'tanques: {TankCount}, hasta {HeaviestTank_lb}',
  A3: '{LegPull_lb} por ramal: cuentan dos, 60°',
  C1: '{TankGap_in} libres entre tanques',
  C2: 'conexiones: {TieCount}, cada una {TieLength_in}, centro a {TieCentre_ft:2}',
  C3: '{InletPorts|boca de entrada|bocas de entrada}, {OverflowCount|de rebose|de rebose}',
  C5: '{InletPorts|boca de entrada|bocas de entrada}, {OverflowCount|de rebose|de rebose}',
  C7: 'aberturas: {OpeningCount}',
  D5: [
    ['TankCount=1', 'bocas {PortsUsed} de {TankPort_in}, cople 1'],
    ['', 'conexiones {TiePlugs} de 4 in, bocas {PortsUsed} de {TankPort_in}, cople 1'],
  ],
  D1: 'placas: {OpeningCount}',
  D2: [
    ['ROUND(TestVacuum_inHg,2)>ROUND(VacuumAllowed_inHg,2)', '{VacuumAllowed_inHg} a lo más'],
    ['', '{TestVacuum_inHg} por {TestHold_min}'],
  ],
  D6: 'tapones: {PlugCount}, y el del cople',
  E8: '{LineDug_in} de hondo, {LineBeyond_ft} de largo',
  G2: 'línea {LineOverBed_in} sobre la cama',
  E1: 'uniones: {LineJoints}',
  E2: 'uniones: {LineJoints}',
  E9: 'cople {TankCoupling_in} sobre el piso',
  E3: 'zanja {TrenchDepth_in}, línea {LineRating_psi}',
  E6: 'casa {HouseBelow_ft} bajo el agua',
  E12: 'cople a {LineCentre_ft:2} de hondo',
  E5: [
    [
      'LineTestAtTank_psi<LinePressureMost_psi',
      'hasta {LinePressureMost_psi} en un manómetro en la casa, el extremo más bajo ({LineTestAtTank_psi} junto al tanque), sostenida 15 min',
    ],
    ['', 'hasta {LinePressureMost_psi} en un manómetro junto al tanque, el extremo más bajo, sostenida 15 min'],
  ],
  G6: '{PumpEndStone_in} sobre la cama',
  G1: [
    ['TankCount=1', '{BallastHeld_in}'],
    ['', '{BallastHeld_in} en cada tanque'],
  ],
  G5: 'a {DrainFoot_ft:2}',
  I2: '{DrainTrench_ft} de ancho, {DrainDeepest_ft:2} en el extremo hondo fuera de la excavación',
  I1: 'caída: entrada {InletSlope_in_per_ft:3}, salida {OverflowSlope_in_per_ft:3}; fondo del tubo a {OverflowInvert_ft:2} en el tanque',
  I4: 'bocas: {PortsUsed}',
  G10: 'helada {FrostDepth_in}',
  I3: [
    ['FilterFall_in>0', 'filtros: {InletCount}, caída {FilterFall_in}'],
    ['', 'filtros: {InletCount}'],
  ],
  G3: 'tapas a {LidTop_ft:2}',
  F1: 'conduit {ConduitRun_ft}, {ConduitCover_in} de tierra encima',
  F2: '{Cable} AWG {CableMetal}, {CableCover_in} de tierra encima',
  G7: 'tierra encima {Cover_ft:2}',
  F3: '{MotorCurrent_A}, {Voltage_V}, caída {FeederDrop_V}',
  H5: '{CommissionWater_gal} en total',
  E4: 'corte a {DeadDepth_in} sobre el piso',
  K1: 'carga {Charge_psi}, placa {PressureTankRating_psi}',
  K2: 'a {HouseMost_psi} a lo más',
  E7: 'para a {CutOut_psi}, arranca a {CutIn_psi}',
  H4: 'por cada 1,000 gal que haya: {BleachRate_pint} de cloro (bleach) de {BleachStrength%}, después hasta {NeutralizerRate_lb:1} de vitamina C; tanques llenos {Bleach_pint}, {Neutralizer_lb:1}',
  H1: '{HouseFlow_gpm} a {HousePressure_psi}',
  H8: '{HouseFlow_gpm} a {HousePressure_psi}',
  H6: 'aberturas: {OpeningCount}',
}

export const spanishSteps: Readonly<Record<string, Words>> = {
  A1: 'Haga marcar las líneas subterráneas; excave a mano cerca de las marcas. Mire hacia arriba: líneas eléctricas sobre la grúa y la excavadora.',
  A5: 'La excavación pasa de 20 pies: el diseño de protección del ingeniero está aquí antes de que alguien excave.',
  A6: 'Lugar de la grúa: firme y drenado, estabilizadores fuera de la línea que sube del pie de la excavación con el declive del suelo, {CraneSetback_ft} o más del borde.',
  A4: [
    ['PitWater="not known"', 'No se conoce el agua subterránea: tenga una bomba lista; bombee antes de que suba el agua y hasta que los tanques tengan lastre y relleno.'],
    ['', 'Bombee la excavación antes de llegar al agua subterránea y hasta que los tanques tengan lastre y relleno.'],
  ],
  A7: 'Haga un bordo contra el agua de lluvia en la orilla de la excavación y tenga lista una bomba de la empresa; antes de una tormenta, agua en los tanques.',
  B8: 'Retire la tierra vegetal sobre la excavación y las zanjas y apílela aparte.',
  B1: 'Trace la excavación: arriba {PitTopLength_ft} a lo largo de la fila por {PitTopWidth_ft}, marcado el lado de la casa; tierra excavada, piedra y máquinas a 2 pies del borde.',
  B2: [
    ['PitSoil="C"', 'Excave con paredes en declive de {Batter} horizontal por 1 vertical, o con apuntalamiento; sin bancos en suelo de clase C.'],
    ['', 'Excave con paredes en declive de {Batter} horizontal por 1 vertical, o con apuntalamiento, o con bancos donde el suelo es cohesivo.'],
  ],
  B4: 'Excave; las paredes quedan a plomo solo en roca estable.',
  B6: 'Trace y excave como lo dibujó el ingeniero; tierra excavada, piedra y máquinas a 2 pies del borde.',
  B9: 'Cerca y letreros alrededor de la excavación abierta antes de que alguien la deje sola; quedan hasta que esté rellena.',
  B7: 'Hay una escalera de mano a no más de 25 pies de cada persona en la excavación.',
  B3: 'El suelo está clasificado y las paredes están inspeccionadas, hoy y después de cada lluvia. Nadie entra antes.',
  B5: 'Cama de piedra sobre todo el fondo, compactada y a nivel de un extremo al otro.',
  A2: 'Revise los tanques en el camión: {Models}, sin grietas, sellos de hule (boots) y cople colado en el concreto enteros.',
  A3: 'Izaje: insertos colados en el concreto del fabricante, eslingas como se calculó, cuerdas guía; nadie debajo ni al lado de un tanque suspendido, nadie en la excavación debajo.',
  C1: 'Coloque primero el tanque de la bomba, del lado de la casa, con su cople colado en el concreto hacia la casa; después los demás.',
  C8: [
    ['SecondTanks=1', 'El tanque del modelo {SecondModel} queda en el extremo lejano de la fila, donde entra el agua del techo.'],
    ['', 'Los {SecondTanks} del modelo {SecondModel} quedan en el extremo lejano de la fila, donde entra el agua del techo.'],
  ],
  C6: 'Coloque el tanque con su cople colado en el concreto hacia la casa.',
  C4: 'Un tanque es un espacio confinado, también nuevo y vacío: si alguien tiene que entrar, primero permiso, prueba de aire, ventilación, asistente y rescate.',
  C2: 'Conexiones bajas por los sellos de hule (boots), {TieStub_in} dentro de cada pared, dos sellos y dos abrazaderas de banda en cada una, apretadas como dice su fabricante.',
  C3: [
    [
      'NextPorts>0',
      'Abra solo las bocas superiores en uso, en mojado y con respirador. El agua del techo entra al tanque más lejano de la casa ({FarPorts}) y al siguiente ({NextPorts}); rebosaderos en el lejano: {OverflowsAtInlet}, en el siguiente: {OverflowsNext}. Tramo corto, codo de 90° y abrazadera de banda en cada una.',
    ],
    [
      '',
      'Abra solo las bocas superiores en uso, en mojado y con respirador. El agua del techo entra al tanque más lejano de la casa; rebosaderos a su lado: {OverflowsAtInlet}, en el siguiente tanque: {OverflowsNext}. Tramo corto, codo de 90° y abrazadera de banda en cada una.',
    ],
  ],
  C5: 'Abra solo las bocas superiores en uso, de entrada y de rebose, en mojado y con respirador. Tramo corto, codo de 90° y abrazadera de banda en cada una.',
  C7: [
    [
      'AND(RiserOver_in>0,RimProud_in=0)',
      'Cuellos (risers) con sellador hasta el nivel del terreno, la última sección {RiserOver_in} más corta, pedida o cortada así; bordes al ras del terreno, tapas con cerradura.',
    ],
    [
      'RiserOver_in>0',
      'Cuellos (risers) con sellador hasta el nivel del terreno, la última sección {RiserOver_in} más corta, pedida o cortada así; bordes {RimProud_in} más altos, tapas con cerradura.',
    ],
    ['RimProud_in=0', 'Cuellos (risers) con sellador hasta el nivel del terreno, bordes al ras del terreno, tapas con cerradura.'],
    ['', 'Cuellos (risers) con sellador hasta el nivel del terreno, bordes {RimProud_in} más altos, tapas con cerradura.'],
  ],
  D5: [
    ['TankCount=1', 'Tapones en cada boca, y uno en el cople de la línea.'],
    ['', 'Tapones en cada conexión y en cada boca, las conexiones desde adentro, y uno en el cople de la línea.'],
  ],
  D4: 'Todos están fuera de todos los tanques y contados. Solo entonces se pone una placa.',
  D1: 'Tapas afuera, placas con sellador en los bordes de todos los cuellos (risers).',
  D2: [
    [
      'ROUND(TestVacuum_inHg,2)>ROUND(VacuumAllowed_inHg,2)',
      'No se saca el aire: el trabajo pide más de lo que permite el fabricante, y la tapa se rompe hacia adentro. La oficina lo corrige primero.',
    ],
    [
      'TankCount=1',
      'Saque el aire del tanque; cuando se asiente, sáquelo otra vez hasta el nivel y después observe el manómetro. No se pare en la tapa ni en las placas: {PlateForce_lbf} sobre una placa. Las lecturas van al registro; una prueba repetida lleva su propia línea.',
    ],
    [
      '',
      'Saque el aire de un tanque tras otro, de todos; cuando se asiente, sáquelo otra vez hasta el nivel y después observe el manómetro. No se pare en tapas ni placas: {PlateForce_lbf} sobre una placa. Las lecturas van al registro; una prueba repetida lleva su propia línea.',
    ],
  ],
  D3: 'Deje entrar aire hasta que el manómetro marque cero; después afloje. No rellene antes de que todos los tanques hayan pasado.',
  D6: 'Quite las placas, saque otra vez cada tapón y cuéntelos: tantos como entraron. Los tapones de adentro salen con permiso de entrada: prueba de aire, ventilación, asistente, rescate.',
  E8: [
    [
      'LineDeeper_ft>0',
      'Excave la zanja de modo que la línea baje todo el camino desde su cople, a {LineCentre_ft:2} de hondo en los tanques: tan honda como la cifra desde donde el terreno haya bajado lo mismo, a {DeepReach_ft} de la excavación si baja parejo. Desde 5 pies con caja de zanja, o en declive de {FillBatter} horizontal por 1 vertical, salvo que la persona competente halle la roca estable en todo el largo; escalera a no más de 25 pies.',
    ],
    [
      'AND(LineProtected=1,TrenchBoxed=0)',
      'Excave la zanja de los tanques a la casa en roca que la persona competente halle estable en todo el largo; donde salga a tierra, caja de zanja, o declive de {FillBatter} horizontal por 1 vertical; escalera a no más de 25 pies.',
    ],
    [
      'LineProtected=1',
      'Excave la zanja de los tanques a la casa, de {LineWidth_ft} de ancho, con caja de zanja, o en declive de {FillBatter} horizontal por 1 vertical; escalera a no más de 25 pies.',
    ],
    ['', 'Excave la zanja de los tanques a la casa; la tierra lejos del borde.'],
  ],
  G2: [
    ['TankCount>1', 'Piedra alrededor de las conexiones y en el extremo de la excavación del lado de la casa hasta la línea, para que las dos descansen sobre ella.'],
    ['', 'Piedra en el extremo de la excavación del lado de la casa hasta la línea, para que descanse sobre ella.'],
  ],
  E1: 'Adaptador macho largo, 1-1/4 x {WaterLineSize}, en el cople colado en el concreto; tubo {WaterLinePipe} sobre insertos, dos abrazaderas todo de acero inoxidable por unión, tornillos donde llegue el desarmador. Ninguna llama dentro o encima de tanque, excavación o zanja.',
  E2: 'Adaptador macho de compresión, 1-1/4 x {WaterLineSize}, en el cople colado en el concreto; tubo {WaterLinePipe} en conexiones de compresión, un refuerzo interior (stiffener) en cada extremo; sin conexiones de inserción, sin llama.',
  E9: 'Dentro del tanque de la bomba mientras está seco, con permiso de entrada: reducción bushing, niple y la mitad fija del adaptador sin foso (pitless) en el cople.',
  E3: [
    ['LineBed_in>0', 'Tienda la línea floja en la zanja sobre {LineBed_in} de tierra limpia encima de la roca, con {LineSlack_ft} de holgura en la pared del tanque.'],
    ['', 'Tienda la línea floja en la zanja, con {LineSlack_ft} de holgura en la pared del tanque.'],
  ],
  E12: 'Desde el cople la línea baja todo el camino hasta la casa: ningún punto queda más alto, o allí se junta aire y el agua se detiene.',
  E6: 'Rompesifón en el punto alto de la línea, donde se pueda alcanzar.',
  E13: 'En la casa: la línea por su camisa en el muro, sellada; tapón afuera, la línea unida a su válvula, y esta cerrada. Donde la válvula llega después, el tapón se queda.',
  E10: 'Tapón afuera en el extremo del tanque, con permiso de entrada si está adentro. El extremo en la casa queda cerrado, o conserva su tapón, antes de echar agua en los tanques: el cople está abierto hacia ella y el lastre se saldría.',
  E5: 'Cierre los dos extremos de la línea con tapones, dentro de un tanque con permiso de entrada; métale presión con una bomba de mano y agua, nunca aire, mientras las uniones están a la vista; agregue agua hasta que el tubo se haya estirado: después la presión no baja y ninguna unión gotea.',
  G6: 'Piedra hasta cubrir la línea de agua en el extremo de la excavación del lado de la casa, tela filtrante, después {CleanEarth_in} de tierra limpia sobre la línea.',
  G1: [
    ['TankCount=1', 'Agua en el tanque como lastre.'],
    ['', 'Agua en los tanques como lastre; los tanques conectados quedan al mismo nivel.'],
  ],
  G5: 'Relleno sin rocas alrededor de los tanques, igual por todos los lados, hasta el pie de la piedra de los drenajes, en capas de {FillLayer_in}, cada una compactada.',
  G4: 'Solo ahora se puede parar la bomba de la excavación.',
  I2: [
    [
      'AND(DrainsProtected=1,TrenchBoxed=0)',
      'Excave las zanjas de los drenajes en roca que la persona competente halle estable en todo el largo; donde salgan a tierra, caja de zanja, o declive de {FillBatter} horizontal por 1 vertical; escalera a no más de 25 pies.',
    ],
    [
      'DrainsProtected=1',
      'Excave las zanjas de los drenajes con caja de zanja, o en declive de {FillBatter} horizontal por 1 vertical, pues el relleno es de clase C; escalera a no más de 25 pies.',
    ],
    ['', 'Excave las zanjas de los drenajes; la tierra lejos del borde.'],
  ],
  I4: [
    ['AND(DrainSize_in<>TankPort_in,PortsUsed>2*InletCount)', 'Reductores en las bocas, de {DrainSize_in} a {TankPort_in}; yes donde un tubo principal se reparte entre ellas.'],
    ['DrainSize_in<>TankPort_in', 'Reductores en las bocas, de {DrainSize_in} a {TankPort_in}.'],
    ['', 'Yes donde un tubo principal se reparte entre las bocas.'],
  ],
  I1: [
    ['InletRun_ft+OverflowRun_ft=0', 'Bajantes directo a las bocas: entrada calmada, ventilas con malla, chapaleta y protección de piedra en el rebosadero.'],
    [
      'FirstWash_gal>0',
      'Drenajes de {DrainSize_in} sobre {DrainUnder_in} de piedra y debajo de {DrainOver_in} de ella, en el relleno compactado; desviador de primeras lluvias y registros de limpieza; entrada calmada, ventilas con malla, chapaleta y protección de piedra en la descarga.',
    ],
    [
      '',
      'Drenajes de {DrainSize_in} sobre {DrainUnder_in} de piedra y debajo de {DrainOver_in} de ella, en el relleno compactado; registros de limpieza; entrada calmada, ventilas con malla, chapaleta y protección de piedra en la descarga.',
    ],
  ],
  I3: 'Filtro de entrada en cada drenaje de entrada junto a los tanques, donde se pueda limpiar desde arriba.',
  G3: 'Siga rellenando, sin rocas, en capas de {FillLayer_in}, cada una compactada, hasta las tapas.',
  F1: 'Camisa con empaque y prensaestopas en el cuello (riser), conduit de {ConduitSize} pulg. hasta justo después del borde del tanque, ahí el cuerpo de conduit, y baje por fuera del borde.',
  F2: 'Cable sumergible para enterrar directo, con un lazo flojo a los dos lados del empalme y bajo la bajada, para que el asentamiento jale de la holgura y no del empalme.',
  G10: 'La helada llega hasta el agua: placas de aislamiento sobre los tanques y {InsulationBeside_ft} a sus lados, antes de que el relleno las cubra.',
  G7: [
    [
      'ByGravity=1',
      'Inspeccionado; después el resto del relleno, sin rocas, sobre tapas y drenajes; cinta de advertencia 12 pulgadas sobre la línea; zanjas rellenas y apisonadas.',
    ],
    [
      '',
      'Inspeccionado; después el resto del relleno, sin rocas, sobre tapas, conduit, drenajes y cable; cinta de advertencia 12 pulgadas sobre línea y cable; zanjas rellenas y apisonadas.',
    ],
  ],
  G9: 'Tierra vegetal otra vez sobre la excavación y las zanjas, rastrillada y sembrada.',
  G8: 'El agua subterránea puede quedar más alta que los drenajes: solo ahora se puede parar la bomba de la excavación.',
  F3: 'Un electricista con licencia conecta, con la energía bloqueada y etiquetada: medio de desconexión, GFCI, sobrecarga y disyuntor (breaker) como pide el código adoptado.',
  H5: [
    ['AND(OR(PitWater="not known",WaterAboveBase_ft>0),Ballast_in>0)', 'Primer llenado: el lastre que ya está cuenta; agua limpia hasta {FirstFill_in} sobre el piso.'],
    ['', 'Primer llenado: agua limpia por encima de la toma, hasta {FirstFill_in} sobre el piso.'],
  ],
  E4: 'Desde arriba, con la energía bloqueada: bomba {PumpModel} en su camisa de flujo, con válvula de retención y cuerda de seguridad, con su tubo de bajada, con la varilla hasta el adaptador sin foso (pitless); el corte por bajo nivel colgado para que pare la bomba en el nivel mínimo. La varilla saca la bomba desde arriba: pruébela.',
  K1: 'En la casa, antes del agua: tanque de presión con interruptor y manómetro, su carga de aire ajustada mientras está vacío; válvula de alivio a no más de lo que dice la placa del tanque, con tubo a un drenaje.',
  K2: 'Válvula reductora de presión después del tanque y del interruptor.',
  K3: 'Tratamiento después del tanque y del interruptor: filtros, lámpara, una llave antes y otra después, un desvío que queda abierto hasta que la línea esté desinfectada y enjuagada; los cartuchos se ponen entonces.',
  K4: [
    [
      'Backflow="air gap"',
      'Espacio de aire para la red pública: el llenado termina a por lo menos dos diámetros interiores suyos, y no menos de una pulgada, sobre el borde más alto que pueda alcanzar el agua; válvula de flotador.',
    ],
    ['', 'Ensamblaje de prevención de reflujo donde una red pública pueda llegar a la casa, probado por quien tiene licencia para ello.'],
  ],
  E11: 'Agua abierta: revise otra vez bajo presión cada unión a su alcance.',
  E14: 'La válvula de la casa está abierta; donde quedó un tapón, primero la válvula y después el tapón afuera.',
  E7: 'Bomba encendida: revise otra vez bajo presión cada unión a su alcance; el interruptor la para.',
  H4: [
    [
      'TreatmentLoss_psi>0',
      'Desinfecte tanques y línea antes de que alguien use el agua, por el desvío y no por el tratamiento: gafas, guantes, desde afuera; la misma agua con manguera sobre paredes y tapas por las aberturas, y hasta cada salida hasta que huela a cloro; déjelo {Contact_h}, y al final deben quedar {ChlorineLeft_mg_per_L} o más; después vitamina C (ácido ascórbico, y ningún otro ácido), poco a poco y mezclando, hasta que se lean {ChlorineUse_mg_per_L} o menos en cada tanque; enjuague con esa agua línea y llaves, donde lo permitan las reglas locales.',
    ],
    [
      '',
      'Desinfecte tanques y línea antes de que alguien use el agua: gafas, guantes, desde afuera; la misma agua con manguera sobre paredes y tapas por las aberturas, y hasta cada salida hasta que huela a cloro; déjelo {Contact_h}, y al final deben quedar {ChlorineLeft_mg_per_L} o más; después vitamina C (ácido ascórbico, y ningún otro ácido), poco a poco y mezclando, hasta que se lean {ChlorineUse_mg_per_L} o menos en cada tanque; enjuague con esa agua línea y llaves, donde lo permitan las reglas locales.',
    ],
  ],
  H8: 'Abra la llave de la casa; lea caudal y presión.',
  H1: 'Opere la bomba con la llave de la casa abierta; lea caudal, presión y amperios, y compárelos con la placa del motor.',
  H2: [
    [
      'TreatmentLoss_psi>0',
      'Tapas cerradas con llave; «agua no potable: no beber» en las tapas y en cada salida antes del tratamiento; después, como diga la autoridad de salud. Protección contra contraflujo donde pueda llegar una red pública.',
    ],
    ['', 'Tapas cerradas con llave; «agua no potable: no beber» en cada salida; protección contra contraflujo donde pueda llegar una red pública.'],
  ],
  H6: 'Aislamiento debajo de cada tapa de cuello (riser).',
  H3: 'Muestre al dueño: qué se limpia y cuándo, el corte, cómo sacar la bomba. Se le entregan la hoja de entrega y el registro de pruebas.',
  H7: 'Muestre al dueño: qué se limpia y cuándo, la válvula de la casa. Se le entregan la hoja de entrega y el registro de pruebas.',
}

/** By the name of the caution: its few words, and the whole. */
export const spanishCautions: Readonly<Record<string, readonly [short: string, text: Words]>> = {
  'deep pit': ['El ingeniero diseña la protección', 'La excavación pasa de 20 pies: un ingeniero registrado diseña su protección antes de que alguien excave.'],
  'pit walls': [
    'Las paredes entierran',
    [
      [
        'PitSoil="C"',
        'La excavación tiene {PitDepth_ft} de hondo en suelo de clase C: declive de {Batter} horizontal por 1 vertical, o apuntalamiento; sin bancos en clase C. Una persona competente clasifica el suelo e inspecciona cada día y después de lluvia. Nadie entra a una excavación sin protección.',
      ],
      [
        'Batter=0',
        'La excavación tiene {PitDepth_ft} de hondo: las paredes quedan a plomo solo en roca estable, como lo encuentre la persona competente cada día y después de lluvia. Nadie entra a una excavación sin protección.',
      ],
      [
        '',
        'La excavación tiene {PitDepth_ft} de hondo en suelo de clase {PitSoil}: declive de {Batter} horizontal por 1 vertical, apuntalamiento, o bancos donde el suelo es cohesivo. Una persona competente clasifica el suelo e inspecciona cada día y después de lluvia. Nadie entra a una excavación sin protección.',
      ],
    ],
  ],
  'trench walls': [
    'Zanja de 5 pies',
    [
      [
        'TrenchBoxed=0',
        'Una zanja tiene {DeepestTrench_ft} de hondo en su extremo hondo: queda a plomo solo mientras la persona competente halle estable la roca en todo el largo; donde salga a tierra o relleno lleva caja de zanja o declive de {FillBatter} horizontal por 1 vertical. Inspeccionada cada día y después de lluvia.',
      ],
      [
        '',
        'Una zanja tiene {DeepestTrench_ft} de hondo en su extremo hondo: desde 5 pies lleva caja de zanja, o declive de {FillBatter} horizontal por 1 vertical: el relleno y el suelo removido son de clase C, sea la excavación como sea. Inspeccionada cada día y después de lluvia.',
      ],
    ],
  ],
  rock: [
    'La roca no es tierra',
    'La roca se rompe con martillo o por un barrenador con licencia. Lo excavado se lleva y se trae relleno sin piedras. Las paredes quedan a plomo solo donde la persona competente halla estable la roca, cada día y después de la lluvia.',
  ],
  'roof surface': [
    'Techo no potable',
    'Un techo de teja asfáltica o grava, o el suelo desnudo, suelta lo que filtros y lámparas no quitan: su agua es para baños, lavado y jardín, salvo que la autoridad de salud diga otra cosa.',
  ],
  'wet trench': [
    'Agua en la zanja',
    'El agua subterránea a {GroundwaterDepth_ft} queda dentro de la zanja de {DeepestTrench_ft}: bombéela antes de que alguien entre; sus paredes cuentan como clase C sea cual sea el suelo.',
  ],
  footings: [
    'Socava muros',
    [
      [
        'AND(PitLaddered=1,TrenchUnder_in>0)',
        'La excavación se abre {PitEdge_ft} más allá de las paredes de los tanques: ningún muro, zapata, poste, árbol ni pavimento queda dentro ni se excava por debajo, si no está apuntalado como dice un ingeniero registrado. Junto a la casa una zanja baja {TrenchUnder_in} más que los {FootingBase_in} donde puede terminar una zapata: llega a la pared en ángulo recto, nunca corre a lo largo, y los últimos pies se excavan a mano y se rellenan el mismo día; primero halle la base.',
      ],
      [
        'TrenchUnder_in>0',
        'Junto a la casa una zanja baja {TrenchUnder_in} más que los {FootingBase_in} donde puede terminar una zapata: llega a la pared en ángulo recto, nunca corre a lo largo, y los últimos pies se excavan a mano y se rellenan el mismo día; primero halle la base. Nada se excava por debajo, si no está apuntalado como dice un ingeniero registrado.',
      ],
      [
        '',
        'La excavación se abre {PitEdge_ft} más allá de las paredes de los tanques: ningún muro, zapata, poste, árbol ni pavimento queda dentro ni se excava por debajo, si no está apuntalado como dice un ingeniero registrado.',
      ],
    ],
  ],
  'tank entry': ['Tanque: espacio confinado', 'Un tanque es un espacio confinado, también vacío y nuevo: no entre sin permiso, prueba de aire, ventilación, asistente y rescate.'],
  lifting: [
    'Nadie bajo la carga',
    'Un tanque pesa hasta {HeaviestTank_lb}, {PickLoad_lb} en el gancho a un radio de {PickRadius_ft}: nadie debajo ni al lado, solo los insertos colados en el concreto del fabricante, eslingas a no menos de los 60° de la horizontal que se calcularon, suelo firme y drenado para los estabilizadores, fuera de la línea que sube del pie de la excavación con el declive del suelo.',
  ],
  'struck by': [
    'Lejos de las máquinas',
    'Nadie dentro del giro de la excavadora, detrás de una máquina que retrocede, ni entre un tanque suspendido y uno puesto: el operador ve a todos, o para.',
  ],
  'power lines': [
    'Líneas eléctricas arriba',
    'Mantenga la grúa y la excavadora a 20 pies de líneas eléctricas mientras no se conozca el voltaje; conocido, a 10 pies hasta 50 kV, a 15 hasta 200, a 20 hasta 350, a 50 por encima.',
  ],
  'buried lines': ['Líneas enterradas', 'Haga marcar las líneas subterráneas antes de excavar; excave a mano cerca de las marcas.'],
  'out before plates': ['Cuente a todos afuera', 'Antes de poner una placa, todos están fuera de los tanques y contados; nadie cierra un tanque en el que no ha mirado.'],
  vacuum: [
    'No pise las tapas',
    'Bajo vacío el aire empuja con {LidForce_lbf} sobre una tapa, {PlateForce_lbf} sobre una placa y {PlugForce_lbf} sobre un tapón: no se pare en tapas ni placas, no afloje nada hasta que el manómetro marque cero, no pase del nivel de la prueba.',
  ],
  flotation: [
    'Un tanque vacío flota',
    [
      [
        'AND(Ballast_in>BallastMost_in,PitWater="not known")',
        'Nadie ha dicho a qué profundidad está el agua subterránea: {FloatDepth_ft} de agua alrededor levantan un tanque vacío y sin cubrir, y si llegara a las tapas ni los tanques llenos se sostendrían. Bombee la excavación, día y noche, hasta el relleno, aunque haya agua en los tanques.',
      ],
      [
        'Ballast_in>BallastMost_in',
        'El agua subterránea queda {WaterAboveBase_ft} sobre la base del tanque; {FloatDepth_ft} levantan un tanque vacío y sin cubrir, y los tanques llenos tampoco se sostienen. Bombee la excavación, día y noche, hasta el relleno, aunque haya agua en los tanques.',
      ],
      [
        'PitWater="not known"',
        'Nadie ha dicho a qué profundidad está el agua subterránea: {FloatDepth_ft} de agua alrededor levantan un tanque vacío y sin cubrir, también después de una tormenta. Bombee la excavación hasta el relleno y lastre cada tanque con {Ballast_in} de agua.',
      ],
      [
        'WaterAboveBase_ft=0',
        'El agua subterránea queda más abajo que los tanques, pero una tormenta llena una excavación: {FloatDepth_ft} de agua alrededor levantan un tanque vacío y sin cubrir. Haga un bordo contra el agua de lluvia, tenga una bomba lista hasta el relleno, y ponga agua en los tanques antes de una tormenta.',
      ],
      [
        'Ballast_in=0',
        'El agua subterránea queda {WaterAboveBase_ft} sobre la base del tanque; {FloatDepth_ft} levantan un tanque vacío y sin cubrir. Bombee la excavación hasta el relleno.',
      ],
      [
        '',
        'El agua subterránea queda {WaterAboveBase_ft} sobre la base del tanque; {FloatDepth_ft} levantan un tanque vacío y sin cubrir. Bombee la excavación hasta el relleno y hasta lastrar los tanques con {Ballast_in} de agua.',
      ],
    ],
  ],
  'wet pit': ['Use GFCI', 'Bombas y herramientas en una excavación mojada van en circuitos con GFCI; cables y enchufes fuera del agua.'],
  electricity: [
    'Primero bloquee',
    'Electricidad en lugar mojado: un electricista con licencia conecta la bomba; GFCI y medio de desconexión como pide el código adoptado. Bloquee y etiquete antes de meter la mano en un tanque.',
  ],
  traffic: [
    'Nada pasa por encima',
    [
      [
        'TrafficRank>TrafficAllowed',
        'Sobre los tanques pasaría {Traffic}, y su fabricante permite: {TrafficOver}. Nada pasa ahí hasta que el ingeniero y el fabricante estén de acuerdo.',
      ],
      [
        'TrafficRank>1',
        'Nada pasa sobre los tanques sino lo que permite el fabricante ({TrafficOver}), ni dentro del declive de la excavación, mientras está abierta y después; y sobre el drenaje de rebose, que sube hacia su descarga, solo donde lo cubren {WheelCover_in}.',
      ],
      ['', 'Nada pasa sobre los tanques sino lo que permite el fabricante ({TrafficOver}), ni dentro del declive de la excavación, mientras está abierta y después.'],
    ],
  ],
  'open lids': ['Tapas cerradas con llave', 'Un cuello (riser) abierto nunca se deja solo: tapa cerrada con llave o vigilada, los niños lejos.'],
  'line test': ['Agua, nunca aire', 'La línea se prueba con agua y nunca con aire: el aire revienta lo que rompe. Apártese de uniones y tapones.'],
  spoil: [
    'Lejos del borde',
    'Tierra excavada, piedra y máquinas a 2 pies del borde; una escalera a no más de 25 pies de cada persona donde hay 4 pies de hondo o más, también en zanjas.',
  ],
  'daily inspection': ['Inspeccione cada mañana', 'La persona competente mira paredes, agua y bordes antes de cada turno, después de lluvia y después de helada.'],
  'open flame': [
    'Aquí ninguna llama',
    'Si se calienta el polietileno para meterlo en un inserto, hágalo solo afuera: ninguna llama ni gas combustible dentro o encima de tanque, excavación o zanja.',
  ],
  silica: ['Corte en mojado, respirador', 'Cortar o romper bocas en el concreto hace polvo de sílice: en mojado, con aspiración, y con respirador como dice la tabla de la regla.'],
  'solvent fumes': [
    'Los vapores arden',
    'El imprimador y el cemento sueltan vapores que arden y marean: solo con aire en movimiento, nunca dentro de un tanque sin permiso de entrada.',
  ],
  chlorine: [
    'Cloro: guantes y aire',
    'El cloro quema piel y ojos; mezclado con ácido o limpiadores suelta gas de cloro. Gafas y guantes, desde afuera del tanque, nadie adentro, nunca lo mezcle con otros productos. El agua de enjuague va adonde lo permitan las reglas locales, nunca a un arroyo.',
  ],
  siphon: [
    'Casa más baja que los tanques',
    [
      [
        'ByGravity=1',
        'La casa queda {HouseBelow_ft} más baja que el agua: una llave abierta o un tubo roto vacía los tanques. Una válvula que cierre en la casa, cerrada cuando no haya nadie.',
      ],
      [
        'CrestUnderFull_ft>0',
        'La casa queda {HouseBelow_ft} más baja que el agua: la línea puede correr sola y vaciar los tanques. Su punto alto queda {CrestUnderFull_ft} bajo el agua de tanques llenos: hasta que baje eso, un rompesifón allí no deja entrar aire y solo una válvula que cierre en la casa detiene el agua.',
      ],
      [
        '',
        'La casa queda {HouseBelow_ft} más baja que el agua: la línea puede correr sola y vaciar los tanques. Un rompesifón en su punto alto y una válvula que cierre en la casa.',
      ],
    ],
  ],
  'drinking water': [
    'No beber sin tratamiento',
    [
      [
        'AND(People>0,TreatmentLoss_psi=0)',
        'El agua de techo no es agua potable sin tratamiento, y este trabajo no trae ninguno a una casa de {People|persona|personas}. Marque cada salida y cada línea que la lleva.',
      ],
      ['', 'El agua de techo no es agua potable sin tratamiento. Marque cada salida y cada línea que la lleva.'],
    ],
  ],
  'ground water': [
    'Entra agua subterránea',
    'El agua subterránea a {GroundwaterDepth_ft} queda más alta que el agua de los tanques: entra por las uniones de los cuellos (risers), los sellos (boots) y las bocas, con lo que hay en el suelo. Selle y pruebe cada una desde afuera, y haga analizar el agua antes de que una casa beba de ella.',
  ],
  ice: [
    'El agua puede helarse',
    'La helada llega a {FrostDepth_in} y el agua queda {WaterLevel_ft} bajo el terreno: el hielo cierra rebosadero y ventilas y revienta lo que llena. Aísle sobre las tapas o ponga los tanques más hondos.',
  ],
  'closed system': [
    'El agua caliente empuja',
    'Detrás de un dispositivo contra reflujo o de una válvula reductora el agua caliente no tiene adónde ir: un tanque de expansión térmica junto al calentador, su válvula de alivio nunca tapada.',
  ],
  sewer: [
    'Lejos del drenaje sanitario',
    'Mantenga la línea de agua a 5 pies de tierra sin remover del drenaje sanitario de la casa, o 12 pulgadas por encima de su lomo, y los tanques tan lejos de la fosa séptica y de su campo de absorción como digan las reglas de salud.',
  ],
  relief: [
    'La válvula de alivio se queda',
    'Si el interruptor se traba, la bomba llega a {ShutOffAtHouseFull_psi} en el tanque de presión: la válvula de alivio se ajusta a no más de lo que dice la placa del tanque, con tubo a un drenaje, nunca tapada.',
  ],
  backflow: ['No junte las redes', 'Nunca una la línea de la cisterna a una red pública sin espacio de aire o un ensamblaje aprobado de prevención de reflujo.'],
}
export const spanishClosing = 'Los códigos locales, el inspector y la práctica con licencia deciden; estas hojas ayudan a presupuestar y no son un diseño.'
