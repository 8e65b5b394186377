//! The circuit of a lock as a calculation, line by line.

use super::LockAt;
use super::cable_loop::CableLoop;
use super::circuit::{HOTTEST_WINDING_C, LockCircuit};
use super::words::DoorWord;
use crate::calculation::{
    CalculationLine, Formula, FormulaSource, Input, InputSource, Limit, Quantity, Rounding, Symbol,
};
use crate::context::Context;
use latchline_finding::{Figure, Unit};
use latchline_site::model::{LockFeed, LockPart};

/// The figures of a lock's circuit, line by line.
pub(super) fn calculation(
    context: &Context<'_>,
    at: &LockAt<'_>,
    circuit: &LockCircuit,
) -> Vec<CalculationLine> {
    let coldest_c = context.site.conditions.coldest_temperature.value.as_celsius();
    let feed_source = match at.used.feed.value {
        LockFeed::Station => {
            InputSource::Key { part: at.station.head.name.clone(), key: "lock_output_voltage".into() }
        }
        LockFeed::Bus => InputSource::LowestBusVoltage,
        _ => InputSource::Key { part: format!("{} lock", at.entrance.id), key: "supply_voltage".into() },
    };
    let tolerance_source =
        if circuit.feed.from_bus { InputSource::NominalToLowest } else { InputSource::ToleranceOfFeed };
    let lock_name = &at.lock.head.name;
    let loop_input =
        Input::new(Symbol::Resistance, circuit.adverse_loop_ohm, Unit::Ohm, InputSource::LineAbove)
            .rounded(Rounding::Up);
    let current_source = if circuit.by_inrush {
        InputSource::Key { part: lock_name.clone(), key: "inrush_current".into() }
    } else {
        InputSource::AdverseCurrent {
            lock: lock_name.clone(),
            temperature: Figure::new(coldest_c, Unit::Celsius),
        }
    };
    let current = Input::new(Symbol::Current, circuit.adverse_current_a, Unit::Ampere, current_source)
        .rounded(Rounding::Up);
    let mut lines = loop_lines(context, circuit);
    lines.extend([
        CalculationLine {
            quantity: Quantity::LeastVoltageAtLock,
            formula: Formula::LeastVoltageAtLock,
            inputs: vec![
                Input::new(
                    Symbol::LowerVoltage,
                    circuit.feed.low_v,
                    Unit::Volt,
                    InputSource::LowerEnd { of: feed_source.both() },
                )
                .rounded(Rounding::Down),
                loop_input.clone(),
                current.clone(),
                Input::of_key(Symbol::RatedVoltage, circuit.rated_v, Unit::Volt, lock_name, "voltage"),
            ],
            result: Figure::new(circuit.least_v, Unit::Volt),
            rounding: Rounding::Down,
            limit: Some(Limit::least(circuit.least_allowed_v, Unit::Volt)),
            source: FormulaSource::VoltageLaw,
        },
        CalculationLine {
            quantity: Quantity::NominalVoltageAtLock,
            formula: Formula::NominalVoltageAtLock,
            inputs: vec![
                Input::new(Symbol::NominalVoltage, circuit.feed.voltage_v, Unit::Volt, feed_source.clone()),
                Input::new(Symbol::Resistance, circuit.loop_ohm, Unit::Ohm, InputSource::NominalLoop),
                Input::of_key(Symbol::Current, circuit.current_a, Unit::Ampere, lock_name, "current"),
                Input::of_key(Symbol::RatedVoltage, circuit.rated_v, Unit::Volt, lock_name, "voltage"),
            ],
            result: Figure::new(circuit.nominal_v, Unit::Volt),
            rounding: Rounding::Nearest,
            limit: None,
            source: FormulaSource::MeterReading,
        },
        highest(circuit, lock_name, &feed_source),
        CalculationLine {
            quantity: Quantity::LeastSupplyVoltage,
            formula: Formula::LeastSupplyVoltage,
            inputs: vec![
                Input::of_key(
                    Symbol::LeastVoltage,
                    circuit.least_allowed_v,
                    Unit::Volt,
                    lock_name,
                    "undervoltage_tolerance",
                ),
                loop_input,
                current,
                Input::new(Symbol::Tolerance, circuit.low_share, Unit::Percent, tolerance_source)
                    .rounded(Rounding::Up),
            ],
            result: Figure::new(circuit.needed_supply_v, Unit::Volt),
            rounding: Rounding::Up,
            limit: None,
            source: FormulaSource::SolvedForFeed,
        },
    ]);
    lines
}

/// The highest voltage that a lock sees while it is fed.
fn highest(circuit: &LockCircuit, lock_name: &str, feed_source: &InputSource) -> CalculationLine {
    let from_feed = Input::new(
        Symbol::UpperVoltage,
        circuit.feed.high_v,
        Unit::Volt,
        InputSource::UpperEnd { of: feed_source.both() },
    )
    .rounded(Rounding::Up);
    let (formula, inputs, source) = match circuit.least_current_a {
        None => (Formula::HighestVoltageOfFeed, vec![from_feed], FormulaSource::CableNeverRaises),
        Some(least_a) => {
            let hottest = Figure::new(HOTTEST_WINDING_C, Unit::Celsius);
            let coil = InputSource::LeastCurrent { lock: String::from(lock_name), temperature: hottest };
            let light_ohm = circuit.cable_loop.light_ohm;
            let inputs = vec![
                from_feed,
                Input::new(Symbol::Resistance, light_ohm, Unit::Ohm, InputSource::LightLoop)
                    .rounded(Rounding::Down),
                Input::new(Symbol::Current, least_a, Unit::Ampere, coil).rounded(Rounding::Down),
                Input::of_key(Symbol::RatedVoltage, circuit.rated_v, Unit::Volt, lock_name, "voltage"),
            ];
            (Formula::HighestVoltageAtLock, inputs, FormulaSource::CoilDrawsAtLeast)
        }
    };
    CalculationLine {
        quantity: Quantity::HighestVoltageAtLock,
        formula,
        inputs,
        result: Figure::new(circuit.highest_v, Unit::Volt),
        rounding: Rounding::Up,
        limit: Some(Limit::most(circuit.most_allowed_v, Unit::Volt)),
        source,
    }
}

/// The loop of the lock's cable, and where further cables lie in its path each of theirs and the sum.
fn loop_lines(context: &Context<'_>, circuit: &LockCircuit) -> Vec<CalculationLine> {
    if circuit.part_loops.is_empty() {
        return vec![circuit.cable_loop.line(context.site, circuit.most_loop_ohm)];
    }
    let of_parts = circuit.part_loops.iter();
    let loops = std::iter::once((None, &circuit.cable_loop));
    let loops: Vec<_> = loops.chain(of_parts.map(|(part, part_loop)| (Some(*part), part_loop))).collect();
    let input = |(part, part_loop): &(Option<LockPart>, &CableLoop)| {
        let word = part.map_or(DoorWord::Lock, super::words::part);
        let source = InputSource::CableTo { part: word.both() };
        Input::new(Symbol::ResistanceOfOne, part_loop.adverse_ohm, Unit::Ohm, source).rounded(Rounding::Up)
    };
    let sum = CalculationLine {
        quantity: Quantity::ResistanceOfCircuit,
        formula: Formula::SumOfResistances,
        inputs: loops.iter().map(input).collect(),
        result: Figure::new(circuit.adverse_loop_ohm, Unit::Ohm),
        rounding: Rounding::Up,
        limit: circuit.most_loop_ohm.map(|ohm| Limit::most(ohm, Unit::Ohm)),
        source: FormulaSource::CablesInSeries,
    };
    let lines = loops.iter().map(|(_, part_loop)| part_loop.line(context.site, None));
    lines.chain(std::iter::once(sum)).collect()
}
