// Every word the test stand shows that does not come from the server.

const WORDS = {
  title: "Test stand",
  lead: "Set the weather and a fault; every reading stands beside the healthy one.",
  set: "What I set",
  show: "What the tools show",
  means: "What it means",
  mode: "The thermostat calls for",
  more: "More: unit, ducts, altitude",
  unit: "Unit",
  refrigerant: "Refrigerant in the circuit",
  metering: "Metering device",
  motor: "Blower motor",
  zone: "Around the ducts",
  altitude: "Altitude",
  outdoor_wb: "Outdoor wet bulb",
  usual: "usual",
  outdoor: "Outdoor air",
  return_db: "Return dry bulb",
  return_wb: "Return wet bulb",
  airflow: "Blower setting",
  fault: (n) => (n === 0 ? "Fault" : "Second fault"),
  none: "None",
  severity: "Severity",
  healthyUnit: "All healthy",
  now: "now",
  healthy: "healthy",
  same: "as healthy",
  charts: "Charts",
  chartNames: { cycle: "Cycle", air: "Air", fan: "Fan and ducts", delivery: "Where it goes" },
  predict: "Predict first",
  random: "A fault at random",
  projector: "Projector",
  copyLink: "Copy link",
  copied: "Copied. Whoever opens the link sees this very setting.",
  inBar: "The link stands in the address bar now.",
  hidden: "hidden until you reveal it",
  predictTitle: "What will the tools show?",
  predictHelp: "Something is set. Say for each reading which way it goes, then reveal.",
  predictFirst: "Choose a fault on the left, or one at random; nothing is shown until you reveal it.",
  predictStop: "Stop predicting",
  reveal: "Reveal",
  ways: { up: "up", same: "same", down: "down" },
  stillOpen: (n) => (n === 1 ? "1 still open" : `${n} still open`),
  foreseen: (right, all) => `${right} of ${all} foreseen`,
  verdict: (name, said, isRight, is) => `${name}: you said ${said}; ${isRight ? "so it is" : "it is not so"}: ${is}.`,
  place: "Place",
  blower: "blower",
  ducts: "ducts",
  airSummary: (text) => `Dry bulb and moisture along the air's way: ${text}.`,
  fanSummary: (now, healthy) => `Blower and ducts meet at ${now}; healthy at ${healthy}.`,
  delivery: {
    cooling: { coil: "Coil takes", blown: "blown away", walls: "warmed on the way", rooms: "reaches the rooms" },
    heating: { coil: "Coil gives", blown: "blown away", walls: "cooled on the way", rooms: "reaches the rooms" },
  },
  deliverySummary: (what, coil, rooms, healthy) => `${what} ${coil}; ${rooms} reach the rooms, ${healthy} when healthy.`,
  chartTable: "The same as a table",
  enthalpy: "Enthalpy",
  pressure: "Pressure",
  state: "State",
  bill: "What the day costs",
  part: "Part",
  metric: "Everything in °C and kPa",
  points: {
    cooling: ["leaving the indoor coil", "entering the compressor", "leaving the compressor", "leaving the outdoor coil", "entering the indoor coil"],
    heating: ["leaving the outdoor coil", "entering the compressor", "leaving the compressor", "leaving the indoor coil", "entering the outdoor coil"],
  },
};

const CHOICES = {
  mode: { cooling: "Cooling", heating: "Heating" },
  refrigerant: { "": "As on the nameplate" },
  metering: { "": "As the unit has it", txv: "Thermostatic valve", orifice: "Fixed orifice" },
  motor: { "": "As the unit has it", constant_torque: "Constant torque", psc: "Induction (PSC)", constant_airflow: "Constant airflow" },
  zone: {},
};

// A word of the settings as people read it: names of files become names of units.
function wordFor(key, word) {
  const said = CHOICES[key] && CHOICES[key][word];
  if (said !== undefined) return said;
  return (word.charAt(0).toUpperCase() + word.slice(1)).replaceAll("_", " ");
}
