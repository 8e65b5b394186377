//! Catalogue files to a [`Catalogue`].

use super::{
    Accessory, AccessoryKind, AddressField, AddressScheme, Battery, BoxKind, BoxModel, BoxRole, Cable,
    Catalogue, Environment, Family, Feed, FieldKind, Gauge, LimitKind, LineConstants, Lock, LockKind,
    LoopThrough, Material, Media, OriginOfPart, PartHead, PowerLoss, Setter, StationKind, StationModel,
    SupplyModel, SwitchOrder,
};
use crate::codes;
use crate::parse::{Entry, Field, Findings, Record, Value};
use latchline_finding::quantity::{
    Capacitance, CapacitancePerLength, Charge, Current, Decibels, Duration, Frequency, Inductance,
    InductancePerLength, Length, Power, Ratio, Resistance, Temperature, Voltage,
};
use latchline_finding::{Finding, Origin, Provenance, Severity, Sourced};
use std::collections::BTreeMap;

/// Words of the files and what they mean.
pub(crate) const ENVIRONMENTS: &[(&str, Environment)] = &[
    ("indoors", Environment::Indoors),
    ("outdoors", Environment::Outdoors),
    ("buried", Environment::Buried),
];
const LIMIT_KINDS: &[(&str, LimitKind)] = &[
    ("constant-current", LimitKind::ConstantCurrent),
    ("foldback", LimitKind::Foldback),
    ("hiccup", LimitKind::Hiccup),
    ("trip", LimitKind::Trip),
];
const MATERIALS: &[(&str, Material)] = &[
    ("copper", Material::Copper),
    ("clad-aluminium-10", Material::CladAluminium10),
    ("clad-aluminium-15", Material::CladAluminium15),
    ("aluminium", Material::Aluminium),
];

/// Names of all parts that were written, also of those that could not be read in full, so that
/// a mistake in a part does not make every use of it look wrong.
#[derive(Debug, Default)]
pub(crate) struct PartNames {
    pub(crate) families: BTreeMap<String, Origin>,
    pub(crate) supplies: BTreeMap<String, Origin>,
    pub(crate) boxes: BTreeMap<String, Origin>,
    pub(crate) stations: BTreeMap<String, Origin>,
    pub(crate) cables: BTreeMap<String, Origin>,
    pub(crate) locks: BTreeMap<String, Origin>,
    pub(crate) accessories: BTreeMap<String, Origin>,
}

/// Collects the parts of several files.
#[derive(Debug, Default)]
pub(crate) struct Loader {
    pub(crate) catalogue: Catalogue,
    pub(crate) names: PartNames,
}

impl Loader {
    /// Adds the parts of one file.
    pub(crate) fn add_file(&mut self, file: &Record<'_>, findings: &mut Findings) {
        if let Some(currency) = file.text("currency") {
            self.catalogue.currency = currency.to_string();
        }
        let Self { catalogue, names } = self;
        let stated = Provenance::Datasheet;
        add(file.named("families"), "family", &mut names.families, &mut catalogue.families, findings, family);
        add(
            file.named("supplies"),
            "supply model",
            &mut names.supplies,
            &mut catalogue.supplies,
            findings,
            supply,
        );
        add(file.named("boxes"), "box model", &mut names.boxes, &mut catalogue.boxes, findings, box_model);
        add(
            file.named("stations"),
            "station model",
            &mut names.stations,
            &mut catalogue.stations,
            findings,
            station,
        );
        add(
            file.named("cables"),
            "cable",
            &mut names.cables,
            &mut catalogue.cables,
            findings,
            |entry, findings| cable(entry, stated, findings),
        );
        add(file.named("locks"), "lock model", &mut names.locks, &mut catalogue.locks, findings, lock);
        add(
            file.named("accessories"),
            "accessory",
            &mut names.accessories,
            &mut catalogue.accessories,
            findings,
            accessory,
        );
    }

    /// Adds the cables that a site file defines for itself.
    pub(crate) fn add_site_cables(&mut self, entries: &[Entry<'_>], findings: &mut Findings) {
        let Self { catalogue, names } = self;
        add(entries, "cable", &mut names.cables, &mut catalogue.cables, findings, |entry, findings| {
            cable(entry, Provenance::Stated, findings)
        });
    }
}

fn add<T>(
    entries: &[Entry<'_>],
    kind: &'static str,
    names: &mut BTreeMap<String, Origin>,
    parts: &mut BTreeMap<String, T>,
    findings: &mut Findings,
    mut build: impl FnMut(&Entry<'_>, &mut Findings) -> Option<T>,
) {
    for entry in entries {
        let origin = entry.record.at(&entry.span);
        let replaces =
            entry.record.boolean("replaces", Provenance::Stated).is_some_and(|replaces| replaces.value);
        match (names.get(entry.name), replaces) {
            (Some(first), false) => {
                findings.push(
                    Finding::new(codes::DUPLICATE_PART, Severity::Error, origin)
                        .with("name", entry.name)
                        .with("kind", kind)
                        .also_at("first-defined-here", first.clone()),
                );
                continue;
            }
            (None, true) => findings.push(
                Finding::new(codes::REPLACES_NOTHING, Severity::Warning, origin.clone())
                    .with("name", entry.name)
                    .with("kind", kind),
            ),
            _ => {}
        }
        names.insert(entry.name.to_string(), origin);
        match build(entry, findings) {
            Some(part) => {
                parts.insert(entry.name.to_string(), part);
            }
            // The earlier part must not stand in for one that could not be read.
            None => {
                parts.remove(entry.name);
            }
        }
    }
}

const DATASHEET: Provenance = Provenance::Datasheet;

fn head(entry: &Entry<'_>, provenance: Provenance) -> Option<PartHead> {
    let record = &entry.record;
    let priced = record.spec.keys.iter().any(|key| key.name == "price");
    Some(PartHead {
        name: entry.name.to_string(),
        title: record.text("title")?.to_string(),
        source: record.text("source")?.to_string(),
        price: if priced { record.number("price", provenance) } else { None },
        labour_minutes: if priced { record.number("labour_minutes", provenance) } else { None },
        origin: OriginOfPart(record.at(&entry.span)),
    })
}

/// A key that the choice made by another key makes necessary.
fn require(entry: &Entry<'_>, key: &'static str, because: &str, findings: &mut Findings) {
    let record = &entry.record;
    if !record.is_written(key) {
        let expected = record.spec.keys.iter().find(|spec| spec.name == key).map(|spec| spec.kind.expected());
        findings.push(
            Finding::new(codes::MISSING_KEY, Severity::Error, record.at(&entry.span))
                .about(entry.name)
                .with("key", key)
                .with("table", record.spec.name)
                .with("expected", expected.unwrap_or_default())
                .with("because", because),
        );
    }
}

/// The first value must not exceed the second.
fn ordered(
    record: &Record<'_>,
    element: &str,
    low: &'static str,
    high: &'static str,
    findings: &mut Findings,
) {
    let number = |key: &str| match record.field(key) {
        Some(Field { value: Value::Quantity(number), .. }) => Some(*number),
        Some(Field { value: Value::Integer(number), .. }) => Some(f64::from(*number)),
        _ => None,
    };
    if let (Some(first), Some(second)) = (number(low), number(high))
        && first > second
    {
        findings.push(
            Finding::new(codes::VALUES_OUT_OF_ORDER, Severity::Error, record.origin(low))
                .about(element)
                .with("key", low)
                .with("other_key", high)
                .also_at("other-value", record.origin(high)),
        );
    }
}

fn family(entry: &Entry<'_>, findings: &mut Findings) -> Option<Family> {
    let record = &entry.record;
    let addresses = record.table("addresses").and_then(|addresses| scheme(entry.name, addresses, findings));
    Some(Family {
        head: head(entry, DATASHEET)?,
        nominal_voltage: record.quantity("nominal_voltage", DATASHEET, Voltage::from_volts)?,
        simultaneous_calls: record.integer("simultaneous_calls", DATASHEET)?,
        simultaneous_views: record.integer("simultaneous_views", DATASHEET).unwrap_or(Sourced::assumed(0)),
        all_call: boolean(record, "all_call", false),
        longest_run: record.quantity("longest_run", DATASHEET, Length::from_metres),
        total_length_per_port: record.quantity("total_length_per_port", DATASHEET, Length::from_metres),
        stations_per_port: record.integer("stations_per_port", DATASHEET),
        cascade_depth: record.integer("cascade_depth", DATASHEET),
        door_stations: record.integer("door_stations", DATASHEET),
        stations_per_dwelling: record.integer("stations_per_dwelling", DATASHEET),
        terminator_required: boolean(record, "terminator_required", false),
        terminator_resistance: record.quantity("terminator_resistance", DATASHEET, Resistance::from_ohms),
        terminator_capacitance: record.quantity(
            "terminator_capacitance",
            DATASHEET,
            Capacitance::from_farads,
        ),
        chains: boolean(record, "chains", true),
        branches: boolean(record, "branches", true),
        addresses: addresses?,
    })
}

fn boolean(record: &Record<'_>, key: &str, default: bool) -> Sourced<bool> {
    record.boolean(key, DATASHEET).unwrap_or(Sourced::assumed(default))
}

fn scheme(family: &str, record: &Record<'_>, findings: &mut Findings) -> Option<AddressScheme> {
    let mut complete = true;
    let mut fields = |key: &str| {
        let mut list = Vec::new();
        for item in record.list(key) {
            match &item.value {
                Value::Table(inner) => match address_field(family, inner, findings) {
                    Some(field) => list.push(field),
                    None => complete = false,
                },
                _ => complete = false,
            }
        }
        list
    };
    let (indoor, door, management) = (fields("indoor"), fields("door"), fields("management"));
    complete.then(|| AddressScheme {
        indoor,
        door,
        management,
        extensions_share_address: boolean(record, "extensions_share_address", false).value,
        latched_at_power_up: boolean(record, "latched_at_power_up", false).value,
    })
}

fn address_field(family: &str, record: &Record<'_>, findings: &mut Findings) -> Option<AddressField> {
    let plain =
        |key: &str, default: u32| record.integer(key, DATASHEET).map_or(default, |number| number.value);
    ordered(record, family, "first", "last", findings);
    let offset = plain("offset", 0);
    let set_by = record.text("set_by")?;
    let count_key = if set_by == "keyed" { "digits" } else { "switches" };
    let Some(count) = record.integer(count_key, DATASHEET).map(|count| count.value) else {
        if !record.is_written(count_key) {
            findings.push(
                Finding::new(codes::MISSING_KEY, Severity::Error, record.at(&record.span))
                    .about(family)
                    .with("key", count_key)
                    .with("table", record.spec.name)
                    .with("expected", "a whole number")
                    .with("because", set_by),
            );
        }
        return None;
    };
    let setter = match set_by {
        "rotary" => Setter::Rotary { switches: count, positions: plain("positions", 10), offset },
        "dip" => Setter::Dip {
            switches: count,
            order: match record.text("order") {
                Some("most-first") => SwitchOrder::MostFirst,
                _ => SwitchOrder::LeastFirst,
            },
            on_is_one: plain("on", 1) == 1,
            first_switch: plain("first_switch", 1),
            offset,
        },
        "jumpers" => Setter::Jumpers { jumpers: count, offset },
        _ => Setter::Keyed { digits: count },
    };
    let field = AddressField {
        kind: record
            .word(
                "field",
                DATASHEET,
                &[
                    ("building", FieldKind::Building),
                    ("entrance", FieldKind::Entrance),
                    ("dwelling", FieldKind::Dwelling),
                    ("extension", FieldKind::Extension),
                    ("management", FieldKind::Management),
                ],
            )?
            .value,
        first: record.integer("first", DATASHEET)?,
        last: record.integer("last", DATASHEET)?,
        reserved: record
            .list("reserved")
            .iter()
            .filter_map(|item| match item.value {
                Value::Integer(number) => Some(number),
                _ => None,
            })
            .collect(),
        main: record.integer("main", DATASHEET).map(|number| number.value),
        setter,
        label: record.text("label")?.to_string(),
    };
    (field.first.value <= field.last.value).then_some(field)
}

fn supply(entry: &Entry<'_>, _: &mut Findings) -> Option<SupplyModel> {
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
        efficiency: record.quantity("efficiency", DATASHEET, Ratio::from_fraction),
        mains_voltage: record.quantity("mains_voltage", DATASHEET, Voltage::from_volts),
        power_factor: record.number("power_factor", DATASHEET).map(|factor| factor.map(Ratio::from_fraction)),
        ambient_limit: record.quantity("ambient_limit", DATASHEET, Temperature::from_celsius),
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

fn box_model(entry: &Entry<'_>, findings: &mut Findings) -> Option<BoxModel> {
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
        BoxKind::PortLimited => require(entry, "port_current_limit", "port-limited", findings),
        BoxKind::Regenerated => {
            require(entry, "output_voltage", "regenerated", findings);
            require(entry, "efficiency", "regenerated", findings);
        }
    }
    ordered(record, entry.name, "least_voltage", "highest_voltage", findings);
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
        port_resistance: record
            .quantity("port_resistance", DATASHEET, Resistance::from_ohms)
            .unwrap_or(Sourced::assumed(Resistance::ZERO)),
        port_current_limit: record.quantity("port_current_limit", DATASHEET, Current::from_amps),
        port_limit_kind: record.word("port_limit_kind", DATASHEET, LIMIT_KINDS),
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

fn station(entry: &Entry<'_>, findings: &mut Findings) -> Option<StationModel> {
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
        load_tolerance: record
            .quantity("load_tolerance", DATASHEET, Ratio::from_fraction)
            .unwrap_or(Sourced::assumed(Ratio::from_fraction(0.1))),
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
        directory: record.integer("directory", DATASHEET),
    })
}

fn cable(entry: &Entry<'_>, provenance: Provenance, findings: &mut Findings) -> Option<Cable> {
    let record = &entry.record;
    let gauge = gauge(entry, provenance, findings)?;
    // The tables of IEC 60228 give the highest resistance already.
    let tolerance = match gauge.value {
        Gauge::CrossSection { .. } => 0.0,
        _ => 0.05,
    };
    let line = match record.table("line") {
        Some(line) => Some(line_constants(line, provenance)?),
        None if record.is_written("line") => return None,
        None => None,
    };
    let truth =
        |key: &str, default: bool| record.boolean(key, provenance).unwrap_or(Sourced::assumed(default));
    Some(Cable {
        head: head(entry, provenance)?,
        gauge,
        material: record
            .word("material", provenance, MATERIALS)
            .unwrap_or(Sourced::assumed(Material::Copper)),
        coated: truth("coated", false),
        resistance_tolerance: record
            .quantity("resistance_tolerance", provenance, Ratio::from_fraction)
            .unwrap_or(Sourced::assumed(Ratio::from_fraction(tolerance))),
        pairs: record.integer("pairs", provenance).unwrap_or(Sourced::assumed(1)),
        environments: environments(record, provenance),
        screened: truth("screened", false),
        mains_insulated: truth("mains_insulated", false),
        conductor_temperature_limit: record.quantity(
            "conductor_temperature_limit",
            provenance,
            Temperature::from_celsius,
        ),
        line,
        drum_lengths: record
            .list("drum_lengths")
            .iter()
            .filter_map(|item| match item.value {
                Value::Quantity(length) => {
                    Some(Sourced::new(Length::from_metres(length), record.at(&item.span), provenance))
                }
                _ => None,
            })
            .collect(),
    })
}

fn gauge(entry: &Entry<'_>, provenance: Provenance, findings: &mut Findings) -> Option<Sourced<Gauge>> {
    let record = &entry.record;
    let size = record.gauge("gauge", provenance)?;
    if !matches!(size.value, Gauge::CrossSection { .. }) {
        return Some(size);
    }
    require(entry, "class", "gauge", findings);
    let class = record.integer("class", provenance)?;
    if !matches!(class.value, 1 | 2 | 5) {
        findings.push(
            Finding::new(codes::OUT_OF_RANGE, Severity::Error, class.origin)
                .about(entry.name)
                .with("key", "class")
                .with("written", class.value.to_string())
                .with("expected", "class 1, 2 or 5 of IEC 60228"),
        );
        return None;
    }
    Some(size.map(|gauge| match gauge {
        Gauge::CrossSection { area, .. } => Gauge::CrossSection { area, class: class.value as u8 },
        other => other,
    }))
}

fn environments(record: &Record<'_>, provenance: Provenance) -> Sourced<Vec<Environment>> {
    let Some(field) = record.field("environments") else {
        return Sourced::assumed(vec![Environment::Indoors]);
    };
    let list = record.list("environments").iter().filter_map(|item| match item.value {
        Value::Text(word) => ENVIRONMENTS.iter().find(|(name, _)| *name == word).map(|(_, meaning)| *meaning),
        _ => None,
    });
    Sourced::new(list.collect(), record.at(&field.span), provenance)
}

fn line_constants(record: &Record<'_>, provenance: Provenance) -> Option<LineConstants> {
    Some(LineConstants {
        capacitance: record.quantity(
            "capacitance",
            provenance,
            CapacitancePerLength::from_farads_per_metre,
        )?,
        inductance: record.quantity("inductance", provenance, InductancePerLength::from_henries_per_metre)?,
        skin_corner: record.quantity("skin_corner", provenance, Frequency::from_hertz)?,
        loss_tangent: record.number("loss_tangent", provenance)?.map(Ratio::from_fraction),
    })
}

fn lock(entry: &Entry<'_>, findings: &mut Findings) -> Option<Lock> {
    let record = &entry.record;
    let kind = record.word(
        "kind",
        DATASHEET,
        &[
            ("strike", LockKind::Strike),
            ("magnet", LockKind::Magnet),
            ("motor", LockKind::Motor),
            ("gate", LockKind::Gate),
        ],
    )?;
    if kind.value != LockKind::Gate {
        let word = record.text("kind").unwrap_or_default();
        require(entry, "voltage", word, findings);
        require(entry, "current", word, findings);
    }
    let tolerance = || Sourced::assumed(Ratio::from_fraction(0.1));
    Some(Lock {
        head: head(entry, DATASHEET)?,
        kind,
        power_loss: record.word(
            "power_loss",
            DATASHEET,
            &[("opens", PowerLoss::Opens), ("stays-shut", PowerLoss::StaysShut)],
        )?,
        feed: record
            .word("feed", DATASHEET, &[("dc", Feed::Dc), ("ac", Feed::Ac), ("either", Feed::Either)])
            .unwrap_or(Sourced::assumed(Feed::Dc)),
        voltage: record.quantity("voltage", DATASHEET, Voltage::from_volts),
        undervoltage_tolerance: record
            .quantity("undervoltage_tolerance", DATASHEET, Ratio::from_fraction)
            .unwrap_or_else(tolerance),
        overvoltage_tolerance: record
            .quantity("overvoltage_tolerance", DATASHEET, Ratio::from_fraction)
            .unwrap_or_else(tolerance),
        current: record.quantity("current", DATASHEET, Current::from_amps),
        inrush_current: record.quantity("inrush_current", DATASHEET, Current::from_amps),
        duty_limit: record.quantity("duty_limit", DATASHEET, Duration::from_seconds),
        coil_inductance: record.quantity("coil_inductance", DATASHEET, Inductance::from_henries),
        dropout_current: record.quantity("dropout_current", DATASHEET, Current::from_amps),
    })
}

fn accessory(entry: &Entry<'_>, _: &mut Findings) -> Option<Accessory> {
    let record = &entry.record;
    Some(Accessory {
        head: head(entry, DATASHEET)?,
        family: record.sourced_text("family", DATASHEET)?,
        kind: record.word(
            "kind",
            DATASHEET,
            &[
                ("keypad", AccessoryKind::Keypad),
                ("reader", AccessoryKind::Reader),
                ("buttons", AccessoryKind::Buttons),
                ("names", AccessoryKind::Names),
            ],
        )?,
        current: record.quantity("current", DATASHEET, Current::from_amps)?,
        night_current: record.quantity("night_current", DATASHEET, Current::from_amps),
        buttons: record.integer("buttons", DATASHEET),
    })
}
