//! Supplies, boxes and stations.

use super::{DATASHEET, boolean, head, ordered, require};
use crate::catalogue::{
    Battery, BoxKind, BoxModel, BoxRole, LimitKind, LoopThrough, Media, StationKind, StationModel,
    SupplyModel,
};
use crate::parse::{Entry, Findings, Record};
use latchline_finding::quantity::{
    Capacitance, Charge, Current, Decibels, Duration, Inductance, Power, Ratio, Resistance, Temperature,
    Voltage,
};
use latchline_finding::{Both, Sourced};

const LIMIT_KINDS: &[(&str, LimitKind)] = &[
    ("constant-current", LimitKind::ConstantCurrent),
    ("foldback", LimitKind::Foldback),
    ("hiccup", LimitKind::Hiccup),
    ("trip", LimitKind::Trip),
];

pub(super) fn supply(entry: &Entry<'_>, _: &mut Findings) -> Option<SupplyModel> {
    let record = &entry.record;
    let battery = match record.table("battery") {
        Some(inner) => Some(battery(inner)?),
        None if record.is_written("battery") => return None,
        None => None,
    };
    Some(SupplyModel {
        head: head(entry, DATASHEET)?,
        family: record.sourced_text("family", DATASHEET)?,
        voltage: record.quantity("voltage", DATASHEET, Voltage::from_volts)?,
        voltage_tolerance: record.quantity("voltage_tolerance", DATASHEET, Ratio::from_fraction)?,
        ripple: record.quantity("ripple", DATASHEET, Ratio::from_fraction),
        source_resistance: record.quantity("source_resistance", DATASHEET, Resistance::from_ohms)?,
        rated_power: record.quantity("rated_power", DATASHEET, Power::from_watts),
        rated_current: record.quantity("rated_current", DATASHEET, Current::from_amps)?,
        limit_current: record.quantity("limit_current", DATASHEET, Current::from_amps),
        limit_kind: record.word("limit_kind", DATASHEET, LIMIT_KINDS)?,
        short_circuit_current: record.quantity("short_circuit_current", DATASHEET, Current::from_amps),
        trip_delay: record.quantity("trip_delay", DATASHEET, Duration::from_seconds),
        retry_pause: record.quantity("retry_pause", DATASHEET, Duration::from_seconds),
        outputs: record.integer("outputs", DATASHEET).unwrap_or(Sourced::assumed(1)),
        feed_choke: record.quantity("feed_choke", DATASHEET, Inductance::from_henries),
        output_capacitance: record.quantity("output_capacitance", DATASHEET, Capacitance::from_farads),
        efficiency: record.quantity("efficiency", DATASHEET, Ratio::from_fraction),
        mains_voltage: record.quantity("mains_voltage", DATASHEET, Voltage::from_volts),
        power_factor: record.number("power_factor", DATASHEET).map(|factor| factor.map(Ratio::from_fraction)),
        ambient_limit: record.quantity("ambient_limit", DATASHEET, Temperature::from_celsius),
        derating_per_kelvin: record.quantity("derating_per_kelvin", DATASHEET, Ratio::from_fraction),
        battery,
    })
}

fn battery(record: &Record<'_>) -> Option<Battery> {
    Some(Battery {
        capacity: record.quantity("capacity", DATASHEET, Charge::from_amp_hours)?,
        rated_hours: record.number("rated_hours", DATASHEET)?,
        peukert_exponent: record.number("peukert_exponent", DATASHEET),
        voltage: record.quantity("voltage", DATASHEET, Voltage::from_volts)?,
        end_bus_voltage: record.quantity("end_bus_voltage", DATASHEET, Voltage::from_volts)?,
        efficiency: record.quantity("efficiency", DATASHEET, Ratio::from_fraction),
        charge_current: record.quantity("charge_current", DATASHEET, Current::from_amps),
    })
}

pub(super) fn box_model(entry: &Entry<'_>, findings: &mut Findings) -> Option<BoxModel> {
    let record = &entry.record;
    let kind = record.word(
        "kind",
        DATASHEET,
        &[
            ("transparent", BoxKind::Transparent),
            ("port-limited", BoxKind::PortLimited),
            ("regenerated", BoxKind::Regenerated),
            ("isolating", BoxKind::Isolating),
        ],
    )?;
    match kind.value {
        BoxKind::Transparent | BoxKind::Isolating => {}
        BoxKind::PortLimited => require(entry, "port_current_limit", Both::same("port-limited"), findings),
        BoxKind::Regenerated => {
            require(entry, "output_voltage", Both::same("regenerated"), findings);
            require(entry, "efficiency", Both::same("regenerated"), findings);
        }
    }
    ordered(record, entry.name, "least_voltage", "highest_voltage", findings);
    ordered(record, entry.name, "turn_off_voltage", "turn_on_voltage", findings);
    Some(BoxModel {
        head: head(entry, DATASHEET)?,
        family: record.sourced_text("family", DATASHEET)?,
        role: record.word(
            "role",
            DATASHEET,
            &[("distributor", BoxRole::Distributor), ("branch-box", BoxRole::BranchBox)],
        )?,
        kind,
        ports: record.integer("ports", DATASHEET)?,
        consumption: record.load("consumption", DATASHEET),
        rectifier_drop: record.quantity("rectifier_drop", DATASHEET, Voltage::from_volts),
        least_voltage: record.quantity("least_voltage", DATASHEET, Voltage::from_volts),
        highest_voltage: record.quantity("highest_voltage", DATASHEET, Voltage::from_volts),
        port_resistance: record.or_assumed(
            "port_resistance",
            record.quantity("port_resistance", DATASHEET, Resistance::from_ohms),
            Resistance::ZERO,
        ),
        port_current_limit: record.quantity("port_current_limit", DATASHEET, Current::from_amps),
        port_limit_kind: record.word("port_limit_kind", DATASHEET, LIMIT_KINDS),
        port_trip_delay: record.quantity("port_trip_delay", DATASHEET, Duration::from_seconds),
        port_retry_pause: record.quantity("port_retry_pause", DATASHEET, Duration::from_seconds),
        turn_on_voltage: record.quantity("turn_on_voltage", DATASHEET, Voltage::from_volts),
        turn_off_voltage: record.quantity("turn_off_voltage", DATASHEET, Voltage::from_volts),
        input_capacitance: record.quantity("input_capacitance", DATASHEET, Capacitance::from_farads),
        output_voltage: record.quantity("output_voltage", DATASHEET, Voltage::from_volts),
        output_tolerance: record.quantity("output_tolerance", DATASHEET, Ratio::from_fraction),
        output_resistance: record.quantity("output_resistance", DATASHEET, Resistance::from_ohms),
        output_power: record.quantity("output_power", DATASHEET, Power::from_watts),
        efficiency: record.quantity("efficiency", DATASHEET, Ratio::from_fraction),
        shares_zero_volt: record.boolean("shares_zero_volt", DATASHEET),
        signal_loss: record.quantity("signal_loss", DATASHEET, Decibels::from_decibels),
        feed_choke: record.quantity("feed_choke", DATASHEET, Inductance::from_henries),
    })
}

pub(super) fn station(entry: &Entry<'_>, findings: &mut Findings) -> Option<StationModel> {
    let record = &entry.record;
    let kind = record.word(
        "kind",
        DATASHEET,
        &[
            ("door", StationKind::Door),
            ("indoor", StationKind::Indoor),
            ("management", StationKind::Management),
        ],
    )?;
    ordered(record, entry.name, "turn_off_voltage", "turn_on_voltage", findings);
    ordered(record, entry.name, "least_voltage", "highest_voltage", findings);
    ordered(record, entry.name, "least_standby_voltage", "highest_voltage", findings);
    let lock_outputs = Sourced::assumed(u32::from(kind.value == StationKind::Door));
    Some(StationModel {
        head: head(entry, DATASHEET)?,
        family: record.sourced_text("family", DATASHEET)?,
        kind,
        media: record.word("media", DATASHEET, &[("audio", Media::Audio), ("video", Media::Video)])?,
        loop_through: record.word(
            "loop_through",
            DATASHEET,
            &[("bridged", LoopThrough::Bridged), ("series", LoopThrough::Series), ("end", LoopThrough::End)],
        )?,
        standby: record.load("standby", DATASHEET)?,
        ringing: record.load("ringing", DATASHEET)?,
        talking: record.load("talking", DATASHEET)?,
        releasing_extra: record.load("releasing_extra", DATASHEET),
        night_extra: record.load("night_extra", DATASHEET),
        heater_extra: record.load("heater_extra", DATASHEET),
        boot: record.load("boot", DATASHEET),
        boot_time: record.quantity("boot_time", DATASHEET, Duration::from_seconds),
        load_tolerance: record.or_assumed(
            "load_tolerance",
            record.quantity("load_tolerance", DATASHEET, Ratio::from_fraction),
            Ratio::from_fraction(0.1),
        ),
        rectifier_drop: record.quantity("rectifier_drop", DATASHEET, Voltage::from_volts),
        least_voltage: record.quantity("least_voltage", DATASHEET, Voltage::from_volts)?,
        least_standby_voltage: record.quantity("least_standby_voltage", DATASHEET, Voltage::from_volts)?,
        highest_voltage: record.quantity("highest_voltage", DATASHEET, Voltage::from_volts),
        turn_on_voltage: record.quantity("turn_on_voltage", DATASHEET, Voltage::from_volts),
        turn_off_voltage: record.quantity("turn_off_voltage", DATASHEET, Voltage::from_volts),
        turn_on_delay: record.quantity("turn_on_delay", DATASHEET, Duration::from_seconds),
        input_capacitance: record.quantity("input_capacitance", DATASHEET, Capacitance::from_farads),
        inrush_limit: record.quantity("inrush_limit", DATASHEET, Current::from_amps),
        bridging_resistance: record.quantity("bridging_resistance", DATASHEET, Resistance::from_ohms),
        bridging_capacitance: record.quantity("bridging_capacitance", DATASHEET, Capacitance::from_farads),
        signal_impedance: record.quantity("signal_impedance", DATASHEET, Resistance::from_ohms),
        built_in_terminator: boolean(record, "built_in_terminator", false),
        most_per_supply: record.integer("most_per_supply", DATASHEET),
        lock_output_voltage: record.quantity("lock_output_voltage", DATASHEET, Voltage::from_volts),
        lock_output_tolerance: record.quantity("lock_output_tolerance", DATASHEET, Ratio::from_fraction),
        lock_output_ac: boolean(record, "lock_output_ac", false),
        lock_output_current: record.quantity("lock_output_current", DATASHEET, Current::from_amps),
        relay_current: record.quantity("relay_current", DATASHEET, Current::from_amps),
        lock_outputs: record.integer("lock_outputs", DATASHEET).unwrap_or(lock_outputs),
        release_time: record.quantity("release_time", DATASHEET, Duration::from_seconds),
        accessory_current: record.quantity("accessory_current", DATASHEET, Current::from_amps),
        accessory_modules: record.integer("accessory_modules", DATASHEET),
        light_output_voltage: record.quantity("light_output_voltage", DATASHEET, Voltage::from_volts),
        light_output_current: record.quantity("light_output_current", DATASHEET, Current::from_amps),
        alarm_inputs: record.integer("alarm_inputs", DATASHEET).unwrap_or(Sourced::assumed(0)),
        alarm_loop_resistance: record.quantity("alarm_loop_resistance", DATASHEET, Resistance::from_ohms),
        alarm_input_current: record.quantity("alarm_input_current", DATASHEET, Current::from_amps),
        directory: record.integer("directory", DATASHEET),
    })
}
