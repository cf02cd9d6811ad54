"""The catalogue of measurements: what can be taken where, with which tool, at what cost."""

from simulator.instruments import (
    air_handler_measurements,
    duct_measurements,
    electrical_measurements,
    outdoor_measurements,
    room_measurements,
    special_measurements,
)
from simulator.instruments.measurement import Measurement

MEASUREMENTS: dict[str, Measurement] = {
    item.id: item
    for group in (
        room_measurements.customer(),
        room_measurements.rooms(),
        room_measurements.registers(),
        air_handler_measurements.air_handler(),
        air_handler_measurements.statics(),
        air_handler_measurements.air_handler_senses(),
        room_measurements.zone_air(),
        room_measurements.zone(),
        outdoor_measurements.outdoor_air(),
        outdoor_measurements.outdoor_pipes(),
        outdoor_measurements.electrical(),
        outdoor_measurements.watts(),
        special_measurements.history(),
        electrical_measurements.controls(),
        duct_measurements.airflow(),
        duct_measurements.trunks(),
        duct_measurements.leakage(),
        duct_measurements.tracer(),
        special_measurements.refrigerant(),
        electrical_measurements.supply(),
        electrical_measurements.legs(),
        electrical_measurements.strips(),
        electrical_measurements.isolated(),
        electrical_measurements.insulation(),
        special_measurements.looks(),
    )
    for item in group
}
