// The whole setting as an address; what comes in by one is checked on the server like anything typed.

const LINKED = ["mode", "unit", "refrigerant", "metering", "motor", "zone", "outdoor", "outdoor_wb", "return_db", "return_wb", "airflow", "altitude", "units"];

function settingFromAddress(setting) {
  const given = new URLSearchParams(window.location.hash.slice(1));
  for (const key of LINKED) if (given.has(key)) setting[key] = given.get(key);
  setting.faults = given.getAll("fault").slice(0, 2).map((text) => {
    const [name, severity] = text.split(":");
    return { name, severity: severity || "" };
  });
  return given;
}

function addressOf(setting, chart) {
  const words = new URLSearchParams();
  for (const key of LINKED) if (setting[key]) words.set(key, setting[key]);
  for (const fault of setting.faults) if (fault && fault.name) words.append("fault", `${fault.name}:${fault.severity}`);
  if (chart !== "cycle") words.set("chart", chart);
  return `${window.location.href.split("#")[0]}#${words}`;
}
