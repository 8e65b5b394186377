//! Calculation sheets: formula, inputs, source and result, for the worst device of each supply, for
//! every lock, and for every supply with its battery.

use super::column::column;
use crate::language::{Sentence, Word};
use crate::locale::Rounding;
use crate::options::Part;
use crate::subject::Subject;
use crate::table::{Cell, Table};
use latchline_assess::{
    CalculationLine, DeviceResult, MEASUREMENT_TOLERANCE, Path, PathSegment, Segment, SourceSummary,
    StageSource,
};
use latchline_finding::{StateKind, Unit};
use latchline_site::protectors;
use latchline_wiring::runs::section_name;
use latchline_words::calculation::Symbol;
use latchline_words::figures;
use latchline_words::key_names::name_of;

/// Builds it.
pub fn table(subject: &Subject<'_>) -> Table {
    let locale = &subject.locale;
    let columns = vec![
        column(locale, Word::For, 11).said_above(),
        column(locale, Word::Quantity, 24),
        column(locale, Word::Formula, 26),
        column(locale, Word::Inputs, 46),
        column(locale, Word::Result, 11),
        column(locale, Word::Limit, 11),
        column(locale, Word::Holds, 7),
        column(locale, Word::Source, 32),
    ];
    let mut table = Table::new(Part::Calculations, locale.word(Word::CalculationsTitle), columns);
    table.note(locale.word(Word::CalculationsNote));
    table.note(locale.word(Word::SymbolsNote));
    for source in &subject.assessment.sources {
        if let Some(device) = source.worst_device.map(|index| &subject.assessment.devices[index]) {
            voltage_sheet(subject, source, device, &mut table);
        }
    }
    for door in &subject.assessment.doors {
        let lines = door.calculation();
        if !lines.is_empty() {
            table.heading(format!("{} {}", locale.word(Word::Door), door.entrance));
        }
        for line in &lines {
            table.row(line_cells(subject, door.entrance.as_str(), line));
        }
        for lock in door.locks.iter().filter(|lock| !lock.calculation.is_empty()) {
            let number = lock.number.to_string();
            table.heading(
                locale.say(&Sentence::LockCalculation { door: door.entrance.as_str(), number: &number }),
            );
            for line in &lock.calculation {
                table.row(line_cells(subject, door.entrance.as_str(), line));
            }
        }
    }
    for sheet in subject.assessment.supply_sheets.iter().filter(|sheet| !sheet.calculation.is_empty()) {
        table.heading(locale.say(&Sentence::SupplyCalculation { supply: sheet.supply.as_str() }));
        for line in &sheet.calculation {
            table.row(line_cells(subject, sheet.supply.as_str(), line));
        }
    }
    table
}

/// The voltage at the worst device of a source, segment by segment.
fn voltage_sheet(subject: &Subject<'_>, source: &SourceSummary, device: &DeviceResult, table: &mut Table) {
    let locale = &subject.locale;
    let state = locale.state(&device.worst.state);
    let calls: Vec<String> = device.worst.state.calls.iter().map(|call| locale.call(call)).collect();
    let mut state = state;
    if !calls.is_empty() {
        state = format!("{state}: {}", calls.join("; "));
    }
    table.heading(locale.say(&Sentence::VoltageCalculation {
        device: device.id.as_str(),
        source: source.id.as_str(),
        state: &state,
    }));
    let id = device.id.as_str();
    let Some(Ok(path)) = subject.readings.paths.get(&device.device) else {
        table.row(vec![Cell::text(id), locale.cell(Word::Voltage), locale.cell(Word::NoOperatingPoint)]);
        return;
    };
    source_row(subject, path, id, table);
    for segment in &path.segments {
        segment_row(subject, segment, id, table);
    }
    // The check's own figure, which lies below the solved one by what its search leaves open.
    let voltage_v = device.worst.adverse_v.unwrap_or(path.voltage_v);
    let result = locale.quantity(voltage_v, Unit::Volt, Rounding::Down);
    let off_mv = path.left_open_v(voltage_v) * 1e3;
    let off = (off_mv >= 0.05 && !device.worst.is_bound).then(|| format!("{} mV", locale.number(off_mv, 1)));
    let limit = device.worst.limit_v;
    table.row(vec![
        Cell::text(id),
        locale.cell(Word::VoltageAtTerminals),
        Cell::text("U = U₀ − Σ R I"),
        Cell::text(locale.say(&Sentence::SumOfDrops {
            source: &locale.in_words(path.source_v, Unit::Volt),
            drops: &format!("{} V", locale.number(path.drop_v, 4)),
            off: off.as_deref(),
        })),
        result,
        Cell::text(format!("≥ {}", locale.in_words(limit, Unit::Volt))),
        locale.yes_no(voltage_v >= limit),
        locale.cell(if device.worst.is_bound { Word::SourceBound } else { Word::SourceKirchhoff }),
    ]);
}

fn source_row(subject: &Subject<'_>, path: &Path, id: &str, table: &mut Table) {
    let (site, locale) = (subject.site, &subject.locale);
    let volts = |value: f64| locale.in_words(value, Unit::Volt);
    let with_tolerance = |tolerance: f64| {
        let percent = locale.in_words(tolerance, Unit::Percent);
        ("U₀ = Un (1 − t)", format!("Un = {}, t = {percent}", volts(path.nominal_source_v)))
    };
    let (what, keys, (formula, inputs)): (_, &[&str], _) = match path.source {
        // What stands behind the supply is then its battery.
        StageSource::Supply(index) if path.state.kind == StateKind::BatteryEnd => {
            let inputs = ("U₀ = Ue", format!("Ue = {}", volts(path.source_v)));
            (&site.supplies[index].model.value, &["battery end_bus_voltage"], inputs)
        }
        StageSource::Supply(index) => {
            let model = site.supply_model(&site.supplies[index]);
            let inputs = with_tolerance(model.voltage_tolerance.value.as_fraction());
            (&site.supplies[index].model.value, &["voltage", "voltage_tolerance"], inputs)
        }
        StageSource::Regenerator(index) => {
            let tolerance = site.box_model(&site.boxes[index]).output_tolerance.as_ref();
            let inputs = with_tolerance(tolerance.map_or(0.0, |tolerance| tolerance.value.as_fraction()));
            (&site.boxes[index].model.value, &["output_voltage", "output_tolerance"], inputs)
        }
    };
    table.row(vec![
        Cell::text(id),
        locale.cell(Word::SourceVoltage),
        Cell::text(formula),
        Cell::text(inputs),
        locale.quantity(path.source_v, Unit::Volt, Rounding::Down),
        Cell::Empty,
        Cell::Empty,
        Cell::text(format!("{what}: {}", key_words(subject, keys))),
    ]);
}

fn segment_row(subject: &Subject<'_>, segment: &PathSegment, id: &str, table: &mut Table) {
    let locale = &subject.locale;
    // To the tenth of a millivolt, so that the drops add up to their sum as it is shown.
    let drop = locale.quantity_with(segment.drop_v, Unit::Volt, 4, Rounding::Nearest);
    let resistance = three(subject, segment.resistance_ohm, locale.ohm("ohm"));
    let current = three(subject, segment.current_a, "A");
    let (what, formula, inputs, source) = match segment.segment {
        Segment::Source => (
            locale.word(Word::DropInSource).to_string(),
            "R I",
            format!("R = {resistance}, I = {current}"),
            key_words(subject, &["source_resistance"]),
        ),
        Segment::PortResistance => (
            locale.word(Word::DropInBox).to_string(),
            "R I",
            format!("R = {resistance}, I = {current}"),
            key_words(subject, &["port_resistance"]),
        ),
        Segment::Cable { run, section } => {
            let ohm_per_m = segment.conductor_ohm_per_m.unwrap_or(f64::NAN);
            cable_words(subject, (run, section), ohm_per_m, &resistance, &current)
        }
    };
    table.row(vec![
        Cell::text(id),
        Cell::text(what),
        Cell::text(formula),
        Cell::text(inputs),
        drop,
        Cell::Empty,
        Cell::Empty,
        Cell::text(source),
    ]);
}

/// Keys as the source of a figure, each behind the table that it stands in: by what they are called.
fn key_words(subject: &Subject<'_>, keys: &[&'static str]) -> String {
    let named = |key: &'static str| name_of(key, subject.locale.language).unwrap_or(key);
    let said = keys.iter().map(|key| match key.rsplit_once(' ') {
        Some((table, key)) => format!("{}: {}", named(table), named(key)),
        None => named(key).to_string(),
    });
    said.collect::<Vec<_>>().join(", ")
}

/// Name, formula, inputs and source of the drop in a section.
fn cable_words(
    subject: &Subject<'_>,
    (run, section): (usize, usize),
    conductor_ohm_per_m: f64,
    resistance: &str,
    current: &str,
) -> (String, &'static str, String, String) {
    let (site, locale) = (subject.site, &subject.locale);
    let run = &site.runs[run];
    let cable = site.cable(run);
    let name = section_name(&run.id, section, run.sections.len());
    let what = locale.say(&Sentence::DropInSection { section: &name });
    let length_m = run.sections[section].length.value.as_metres();
    let length = locale.in_words(length_m, Unit::Metre);
    let conditions = &site.conditions;
    if let Some(measured) = &run.measured.loop_resistance {
        let inputs = format!(
            "Rm = {}, k = {}, L = {length}; R = {resistance}, I = {current}",
            locale.in_words(measured.value.as_ohms(), Unit::Ohm),
            locale.in_words(MEASUREMENT_TOLERANCE, Unit::Percent),
        );
        let source = locale.word(Word::SourceMeasured).to_string();
        return (what, locale.word(Word::MeasuredLoopFormula), inputs, source);
    }
    let hot_c = conditions.hottest_temperature.value.as_celsius();
    let per_length = locale.ohm_per_length(conductor_ohm_per_m);
    let mut inputs = format!(
        "r = {per_length} ({}, {}), L = {length}, a = {}, b = {}, j = {}, p = {}",
        run.cable.value,
        locale.in_words(hot_c, Unit::Celsius),
        locale.in_words(conditions.length_tolerance.value.as_fraction(), Unit::Percent),
        locale.in_words(cable.resistance_tolerance.value.as_fraction(), Unit::Percent),
        locale.in_words(conditions.joint_resistance.value.as_ohms(), Unit::Ohm),
        run.pairs.value.max(1),
    );
    if run.joints.value > 0 {
        inputs = format!("{inputs}, n = {}", run.joints.value);
    }
    let protectors = protectors::of_sections(site, run)[section];
    for (symbol, protector) in [("s", protectors.before), ("e", protectors.behind)] {
        if let Some(resistance) = protector {
            inputs = format!("{inputs}, {symbol} = {}", locale.in_words(resistance.as_ohms(), Unit::Ohm));
        }
    }
    inputs = format!("{inputs}; R = {resistance}, I = {current}");
    let formula = "R I, R = (2 r L (1+a)(1+b) + 4 j + 2 n j L/ΣL) / p + s + e";
    (what, formula, inputs, format!("{}; {}", cable.head.source, locale.word(Word::SourceKirchhoff)))
}

/// A number with three decimals and a unit.
fn three(subject: &Subject<'_>, value: f64, unit: &str) -> String {
    format!("{} {unit}", subject.locale.number(value, 3))
}

/// A line that the assessment calculated.
fn line_cells(subject: &Subject<'_>, about: &str, line: &CalculationLine) -> Vec<Cell> {
    let locale = &subject.locale;
    let language = locale.language;
    let inputs: Vec<String> = line
        .inputs
        .iter()
        .map(|input| {
            // A resistance per length is written as in the lines of the voltage.
            if input.symbol == Symbol::ResistancePerMetre {
                let per_length = locale.ohm_per_length(input.figure.value);
                return format!("r = {per_length} ({})", input.source.say(locale.0));
            }
            format!(
                "{} = {} ({})",
                input.symbol.say(language),
                match input.figure.unit {
                    Unit::Watt => figures::input(input.figure, input.rounding, locale.0),
                    _ => locale.finding_figure_rounded(input.figure, input.rounding),
                },
                input.source.say(locale.0)
            )
        })
        .collect();
    let limit = line.limit.map_or(Cell::Empty, |limit| {
        let sign = if limit.is_least { "≥" } else { "≤" };
        Cell::text(format!("{sign} {}", locale.figure(limit.figure)))
    });
    vec![
        Cell::text(about),
        Cell::text(line.quantity.say(language)),
        Cell::text(line.formula.say(language)),
        Cell::text(inputs.join("; ")),
        locale.quantity(line.result.value, line.result.unit, line.rounding),
        limit,
        if line.limit.is_some() { locale.yes_no(line.holds()) } else { Cell::Empty },
        Cell::text(line.source.say(language)),
    ]
}
