// How a form's fields are spread over its pages: an arrangement only. Labels, options, units and
// limits are the form's. The first page of a kind asks what its form requires and, of the rest,
// what stands here:
//   main      asked every time, also where a script may leave it out
//   shown     may be left open; `true`: all that the form has, so that there is no second page
//   again     filled in beforehand with what the person recorded last. Never a finding.
//   harmless  with any other choice the field's help is set off, to be read before recording
//   from      what of the book is offered to choose from, instead of an id or key to be written
//   counted   containers whose content is counted so stand first; the others behind a button
//   apart     another field whose choice is not offered here once more
//   named     an id that comes into being with the entry: filled in with this and the day
//   turned    which number of a line the keypad turns to, by an earlier choice of the form

export const pages = {
  'oil-drained': {
    main: ['container', 'fluid', 'measured_by', 'volume_ml', 'contamination'],
    again: ['container', 'fluid', 'measured_by'],
    harmless: { contamination: 'none' },
  },
  'solvent-waste': { shown: ['solvent', 'source', 'measured_by', 'contamination'],
    harmless: { contamination: 'none' } },
  'rag-bin': { shown: true, again: ['container'], apart: { emptied_into: 'container' } },
  transfer: { shown: true, apart: { to_container: 'from_container' } },
  'level-reading': { again: ['reading_method'], counted: { container: 'volume' },
    shown: ['height_mm', 'volume_ml', 'mass_kg'] },
  'container-change': { shown: true },
  'container-inspection': { shown: true },
  'oil-test': { shown: ['halogens_ppm', 'water_ppm', 'pcb_ppm', 'flash_point_c', 'rebuttal',
    'certificate_number'] },
  collection: {
    shown: ['carrier', 'loads', 'refused'],
    from: { collection: { source: 'collections',
      when: [{ field: 'stage', codes: ['document-returned', 'weighed'] }] } },
    named: { collection: 'c' },
    turned: { loads: { by: 'stage', weighed: 'mass_kg' } },
  },
  'cylinder-check': { shown: ['gauge_pressure_bar', 'ambient_temperature_c', 'leak_test', 'secured',
    'valve_protection', 'result'] },
  'cylinder-change': { shown: true },
  'gas-use': { shown: true },
  'tool-inspection': { shown: ['body_condition', 'seals_condition', 'marking_condition',
    'relief_condition', 'hose_condition', 'needle_condition', 'reference_instrument', 'reference',
    'points'] },
  'plant-check': { shown: ['access_clear', 'body_condition', 'marking_condition',
    'charge_condition', 'function_test', 'relief_condition', 'drained'] },
  'walk-round': { shown: true },
  'cabinet-count': { shown: true },
  'stuck-part': {
    shown: true,
    from: { stuck_part: { source: 'stuck-parts',
      when: [{ field: 'work_stage', codes: ['closed'] }] } },
    named: { stuck_part: 'part' },
  },
  event: { shown: ['what_happened', 'fluid', 'room', 'volume_ml', 'reached_drain', 'accident_book',
    'owner', 'follow_up_by'], named: { event: 'event' } },
  'action-closed': { shown: true,
    from: { event: { source: 'events' }, finding: { source: 'findings' } } },
  'finding-acknowledged': { shown: true, from: { finding: { source: 'findings' } } },
  'register-change': { shown: ['competences', 'opening_days', 'rule_pack', 'emergency_phone',
    'registration_expires', 'room', 'inspection_interval_days', 'accuracy_class',
    'last_test_month', 'rated_pressure_bar', 'certificate_expires', 'flash_point_c', 'waste_type',
    'emptied_daily', 'bund_volume_l', 'placed'] },
  briefing: { shown: true },
  hold: { shown: true },
  'waste-determination': { shown: true },
};
