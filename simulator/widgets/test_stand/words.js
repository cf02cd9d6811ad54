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
  chart: "Pressure and enthalpy",
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
