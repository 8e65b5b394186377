//! Rows held against the site.

use super::row::{FOUND, Row, RowProblem};
use crate::alone::read_alone;
use crate::evidence::{Evidence, Measured, Symptom, Taken};
use crate::kind::SymptomKind;
use crate::plant::Plant;
use crate::predict::{State, node};
use crate::quantity::{Legs, OPEN_OHM, Quantity, place_name, places};
use latchline_circuit::flow::Workspace;
use latchline_finding::{CallMoment, Figure, Instrument, Language, StateKind, Unit};
use latchline_network::BusState;
use latchline_network::readings::ReadingPlace;
use latchline_site::keys::{QuantityError, UNITS, read_number_and_unit};
use latchline_site::parse::NameBudget;
use latchline_words::figures;
use latchline_words::locate::{NotPossible, Problem, RowWord};

/// Quantities by name.
pub(super) const QUANTITIES: [&str; 7] =
    ["voltage", "drop", "current", "loop", "insulation", "earth", "capacitance"];

/// A resistance above this is no loop of a building's cable but insulation, in ohms.
const LEAST_INSULATION_OHM: f64 = 10e3;

/// A voltage below zero is that of a reversed pair if its amount is as predicted but for this share (assumed).
const REVERSED: f64 = 0.25;
/// Between minus this and zero a voltage is zero: an open wire picks up as much, and a meter shows as much of nothing (assumed), in volts.
const PICKED_UP_V: f64 = 0.5;

/// Where the other lead of the meter may be.
const LEADS: [&str; 3] = ["other-leg", "same-leg", "earth"];

/// Whether a word says how a figure was read off.
pub(super) fn is_taken(word: &str) -> bool {
    Taken::ALL.iter().any(|taken| taken.name() == word)
}

/// Whether a word says where the other lead was.
pub(super) fn is_lead(word: &str) -> bool {
    LEADS.contains(&word)
}

/// Rows that can be used, and what is wrong with the others.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Checked {
    /// What can be used.
    pub evidence: Evidence,
    /// Its lines, first readings, then symptoms.
    pub lines: Vec<usize>,
    /// What cannot.
    pub problems: Vec<RowProblem>,
}

/// Checks rows against the site.
pub fn check(plant: &Plant<'_>, rows: &[Row]) -> Checked {
    let known = places(plant.site);
    let mut budget = NameBudget::default();
    let mut found = Checked::default();
    let mut told: Vec<(usize, Symptom)> = Vec::new();
    for row in rows {
        if row.at == FOUND {
            let list = listed(plant, &known, &mut budget, row, &mut found.problems);
            told.extend(list.into_iter().map(|symptom| (row.line, symptom)));
            continue;
        }
        match one(plant, &known, &mut budget, row) {
            Ok(Found::Measured(measured)) => {
                found.evidence.measured.push(*measured);
                found.lines.push(row.line);
            }
            Ok(Found::Symptom(symptom)) => told.push((row.line, symptom)),
            Err(problem) => found.problems.push(problem),
        }
    }
    agreed(plant, &told, &mut found);
    found
}

/// What was told of each station, once; what cannot be true together is left out on both sides and asked about.
fn agreed(plant: &Plant<'_>, told: &[(usize, Symptom)], found: &mut Checked) {
    for (index, (line, symptom)) in told.iter().enumerate() {
        if told[..index].iter().any(|(_, before)| before == symptom) {
            continue;
        }
        let of_it = told.iter().filter(|(_, other)| other.station == symptom.station);
        match of_it.map(|(_, other)| other.kind).find(|other| !symptom.kind.agrees_with(*other)) {
            None => found.evidence.symptoms.push(*symptom),
            Some(other) => {
                let name = plant.site.stations[symptom.station].id.to_string();
                let (one, other) = (symptom.kind.name(), other.name());
                let problem = Problem::Contradicted { name: &name, one: &one, other: &other };
                found.problems.push(RowProblem::new(*line, problem));
            }
        }
    }
}

/// The list of devices: who is in it, and who of the site is not.
fn listed(
    plant: &Plant<'_>,
    known: &[(String, ReadingPlace)],
    budget: &mut NameBudget,
    row: &Row,
    problems: &mut Vec<RowProblem>,
) -> Vec<Symptom> {
    let names: Vec<&str> =
        row.value.split([' ', ',', ';', '\n', '\t']).filter(|name| !name.is_empty()).collect();
    let stations =
        || (0..plant.site.stations.len()).filter(|station| plant.layout.station[*station].is_some());
    for name in &names {
        if !stations().any(|station| plant.site.stations[station].id.as_str() == *name) {
            let near = budget.nearest(name, known.iter().map(|(name, _)| name.as_str()));
            let nearest = (!near.is_empty()).then(|| near.join(", "));
            let problem = Problem::UnknownPlace { name, nearest: nearest.as_deref() };
            problems.push(RowProblem::new(row.line, problem));
        }
    }
    let symptom = |station: usize| {
        let is_in = names.contains(&plant.site.stations[station].id.as_str());
        let kind = if is_in { SymptomKind::Found } else { SymptomKind::NotFound };
        Symptom { kind, station }
    };
    stations().map(symptom).collect()
}

enum Found {
    Measured(Box<Measured>),
    Symptom(Symptom),
}

fn one(
    plant: &Plant<'_>,
    known: &[(String, ReadingPlace)],
    budget: &mut NameBudget,
    row: &Row,
) -> Result<Found, RowProblem> {
    let fail = |problem: Problem<'_>| RowProblem::new(row.line, problem);
    let mut place_of = |name: &str| -> Result<Vec<ReadingPlace>, RowProblem> {
        let of: Vec<ReadingPlace> =
            known.iter().filter(|(known, _)| known == name).map(|(_, place)| *place).collect();
        if of.is_empty() && is_state(name) {
            return Err(fail(Problem::StateForPlace { state: name, value: &row.value }));
        }
        if of.is_empty() {
            let near = budget.nearest(name, known.iter().map(|(name, _)| name.as_str()));
            let nearest = (!near.is_empty()).then(|| near.join(", "));
            return Err(fail(Problem::UnknownPlace { name, nearest: nearest.as_deref() }));
        }
        Ok(of)
    };
    let at = place_of(&row.at)?;
    if let Some(kind) = SymptomKind::of_name(&row.value.to_lowercase().replace(' ', "-")) {
        let station = at.iter().find_map(|place| match place {
            ReadingPlace::Station(index) => Some(*index),
            _ => None,
        });
        let station = station.filter(|index| plant.layout.station[*index].is_some());
        return match station {
            Some(station) => Ok(Found::Symptom(Symptom { kind, station })),
            None => Err(fail(Problem::NotASymptomOfThisPlace { symptom: &row.value, name: &row.at })),
        };
    }
    let (value, unit) = value(row)?;
    let name = match (&row.quantity, unit, &row.to) {
        (Some(name), ..) => name.as_str(),
        (None, Unit::Volt, Some(_)) => "drop",
        (None, Unit::Volt, None) => "voltage",
        (None, Unit::Ampere, _) => "current",
        (None, Unit::Farad, _) => "capacitance",
        (None, _, _) if value.is_finite() && value >= LEAST_INSULATION_OHM => "insulation",
        _ => "loop",
    };
    if !QUANTITIES.contains(&name) {
        let all = QUANTITIES.join(", ");
        return Err(fail(Problem::UnknownWord { what: RowWord::Quantity, text: name, known: &all }));
    }
    let run = at.iter().find_map(|place| match place {
        ReadingPlace::Run(index) => Some(*index),
        _ => None,
    });
    let not_here = || fail(Problem::NotAtThisPlace { quantity: name, name: &row.at });
    let quantity = match name {
        "voltage" | "current" | "drop" => {
            let live = at.iter().copied().find(|place| node(plant, *place).is_some());
            let live = live.ok_or_else(|| fail(Problem::NotFed { name: &row.at }))?;
            let state = state(plant, row, live)?;
            match name {
                "voltage" => Quantity::Voltage { at: live, state },
                "current" => Quantity::Current { at: live, state },
                _ => {
                    let to = row.to.as_deref().ok_or_else(not_here)?;
                    let to = place_of(to)?.into_iter().find(|place| node(plant, *place).is_some());
                    let legs = if row.lead.as_deref() == Some("same-leg") { Legs::One } else { Legs::Both };
                    let to = to.ok_or_else(|| fail(Problem::NotFed { name: &row.at }))?;
                    Quantity::Drop { from: live, to, legs, state }
                }
            }
        }
        "loop" => Quantity::Loop { run: run.ok_or_else(not_here)? },
        "insulation" => Quantity::Insulation { run: run.ok_or_else(not_here)? },
        "earth" => Quantity::Earth { run: run.ok_or_else(not_here)? },
        _ => Quantity::Capacitance { run: run.ok_or_else(not_here)? },
    };
    if quantity.unit() != unit {
        return Err(not_here());
    }
    if let Some(lead) = &row.lead {
        if !is_lead(lead) {
            let all = LEADS.join(", ");
            return Err(fail(Problem::UnknownWord { what: RowWord::Lead, text: lead, known: &all }));
        }
        let is_drop = matches!(quantity, Quantity::Drop { .. });
        if lead == "earth" || (lead == "same-leg" && !is_drop) {
            return Err(fail(Problem::OtherLead { lead, name: &row.at }));
        }
    }
    if let Some(run) = run.filter(|run| plant.run_stage[*run].is_none())
        && quantity.state().is_none()
    {
        let name = plant.site.runs[run].id.to_string();
        return Err(fail(Problem::NotFed { name: &name }));
    }
    let word = |given: &Option<String>, known: &[&str], what: RowWord| match given {
        None => Ok(0),
        Some(text) => known.iter().position(|name| name == text).ok_or_else(|| {
            let all = known.join(", ");
            fail(Problem::UnknownWord { what, text, known: &all })
        }),
    };
    let taken = match row.taken {
        None => Taken::default(),
        Some(_) => Taken::ALL[word(&row.taken, &Taken::ALL.map(Taken::name), RowWord::Taken)?],
    };
    let instrument = match row.instrument {
        None => Instrument::default(),
        Some(_) => {
            Instrument::ALL
                [word(&row.instrument, &Instrument::ALL.map(Instrument::name), RowWord::Instrument)?]
        }
    };
    let measured = Measured { quantity: quantity.clone(), value, instrument, taken };
    plausible(plant, row, &measured)?;
    let is_nothing = matches!(quantity, Quantity::Voltage { .. }) && (-PICKED_UP_V..0.0).contains(&value);
    let value = if is_nothing { 0.0 } else { value };
    Ok(Found::Measured(Box::new(Measured { quantity, value, instrument, taken })))
}

/// What can be told of a station, as it is written.
pub(super) fn symptoms_known() -> String {
    let told = SymptomKind::ALL.iter().filter(|kind| **kind != SymptomKind::Found);
    told.map(|kind| kind.name()).collect::<Vec<_>>().join(", ")
}

/// Whether a word says a state, as it is written behind `@`.
pub(super) fn is_state(word: &str) -> bool {
    let word = word.split_once(':').map_or(word, |(word, _)| word).trim();
    ["ringing", "talking", "releasing", "standby", "night"].contains(&word)
        || StateKind::ALL.iter().any(|kind| kind.name() == word)
}

/// The figure in its SI unit.
fn value(row: &Row) -> Result<(f64, Unit), RowProblem> {
    let text = row.value.trim();
    if ["open", "OL", "ol", "O.L."].contains(&text) {
        return Ok((f64::INFINITY, Unit::Ohm));
    }
    let fail = |problem: Problem<'_>| RowProblem::new(row.line, problem);
    let not_a_value = || fail(Problem::NotAValue { text, known: &symptoms_known() });
    match read_number_and_unit(text) {
        Ok((number, Some(symbol))) => {
            let unit = match symbol.as_str() {
                "V" | "mV" => Unit::Volt,
                "A" | "mA" | "uA" => Unit::Ampere,
                "ohm" | "mohm" | "kohm" | "Mohm" => Unit::Ohm,
                "F" | "mF" | "uF" | "nF" | "pF" => Unit::Farad,
                _ => return Err(not_a_value()),
            };
            // Of the two units written F the farad comes first.
            let factor = UNITS.iter().find(|known| known.symbol == symbol).map_or(1.0, |known| known.factor);
            Ok((number * factor, unit))
        }
        Ok((_, None)) => Err(fail(Problem::NoUnit { text, at: &row.at })),
        Err(QuantityError::DecimalComma) => Err(fail(Problem::DecimalComma { text })),
        _ => Err(not_a_value()),
    }
}

fn state(plant: &Plant<'_>, row: &Row, at: ReadingPlace) -> Result<BusState, RowProblem> {
    let Some(text) = row.state.as_deref().map(str::trim).filter(|text| !text.is_empty()) else {
        return Ok(StateKind::StandbyDay.into());
    };
    let none = || RowProblem::new(row.line, Problem::NoSuchState { text, name: &row.at });
    // A name may hold a plus; what cannot be one call is calls at once.
    one_state(plant, text, at).or_else(|| several(plant, text, at)).ok_or_else(none)
}

/// Calls at once: `ringing:A-45/gate+ringing:A-44/lodge`.
fn several(plant: &Plant<'_>, text: &str, at: ReadingPlace) -> Option<BusState> {
    let calls: Option<Vec<BusState>> = text
        .split('+')
        .map(|part| one_state(plant, part.trim(), at).filter(|one| !one.calls.is_empty()))
        .collect();
    plant.at_once(&calls?)
}

/// A state without calls, or one call: `night`, `ringing`, `talking:A-15`, `ringing:A-45/gate`.
fn one_state(plant: &Plant<'_>, text: &str, at: ReadingPlace) -> Option<BusState> {
    let (word, called) = match text.split_once(':') {
        Some((word, called)) => (word.trim(), Some(called.trim())),
        None => (text, None),
    };
    let moment = match word {
        "ringing" => CallMoment::Ringing,
        "talking" => CallMoment::Talking,
        "releasing" => CallMoment::Releasing,
        _ => {
            let kind = match word {
                "standby" => StateKind::StandbyDay,
                "night" => StateKind::StandbyNight,
                other => StateKind::ALL.into_iter().find(|kind| kind.name() == other)?,
            };
            let state = BusState::from(kind);
            return State::new(plant, &state).map(|_| state);
        }
    };
    let named = |name: &str| plant.site.stations.iter().position(|station| station.id.as_str() == name);
    // No name holds a slash: what stands behind one is who calls.
    let (called, caller) = match called.and_then(|called| called.split_once('/')) {
        Some((called, caller)) => (Some(called.trim()), Some(named(caller.trim())?)),
        None => (called, None),
    };
    let station = match (called, at) {
        (Some(name), _) => named(name)?,
        (None, ReadingPlace::Station(index)) => index,
        _ => return None,
    };
    plant.call(station, moment, caller)
}

/// The most that a voltage can be at a place: the open-circuit voltage of what feeds it, at its upper tolerance.
fn most_v(plant: &Plant<'_>, quantity: &Quantity) -> Option<f64> {
    let at = match quantity {
        Quantity::Voltage { at, .. } | Quantity::Drop { from: at, .. } => *at,
        _ => return None,
    };
    let at = node(plant, at)?;
    Some(plant.layout.stages[at.stage].voltage_v.iter().copied().fold(0.0, f64::max))
}

/// What cannot be, and what was probably meant in another unit.
fn plausible(plant: &Plant<'_>, row: &Row, measured: &Measured) -> Result<(), RowProblem> {
    let (quantity, value) = (&measured.quantity, measured.value);
    let name = match quantity {
        Quantity::Drop { from, to, .. } => {
            format!("{} – {}", place_name(plant.site, *from), place_name(plant.site, *to))
        }
        other => place_name(plant.site, other.place()),
    };
    let shown = |value: f64| figures::sentence(Figure { value, unit: quantity.unit() }, Language::English);
    let highest_v = plant.layout.stages.iter().flat_map(|stage| stage.voltage_v).fold(0.0, f64::max);
    let impossible = |why: NotPossible| {
        let why = &why.both();
        Err(RowProblem::new(row.line, Problem::Impossible { value: &row.value, name: &name, why }))
    };
    match quantity {
        Quantity::Voltage { .. } | Quantity::Drop { .. } if value.abs() > 1.3 * highest_v => {
            return impossible(NotPossible::AboveSupplies {
                highest: Figure { value: highest_v, unit: Unit::Volt },
            });
        }
        Quantity::Loop { .. }
        | Quantity::Insulation { .. }
        | Quantity::Earth { .. }
        | Quantity::Capacitance { .. }
            if value < 0.0 =>
        {
            return impossible(NotPossible::BelowZero);
        }
        Quantity::Current { .. } if value.abs() > 100.0 => return impossible(NotPossible::AboveBuses),
        _ => {}
    }
    if row.is_sure || value == 0.0 || !value.is_finite() {
        return Ok(());
    }
    if let Some(most_v) = most_v(plant, quantity)
        && value.abs() - 3.0_f64.sqrt() * measured.deviation() > most_v
    {
        let most = shown(most_v);
        return Err(RowProblem::new(
            row.line,
            Problem::TooHigh { value: &row.value, name: &name, most: &most },
        ));
    }
    let is_below_zero = value < -PICKED_UP_V && matches!(quantity, Quantity::Voltage { .. });
    let predicted = match quantity.state() {
        Some(state) => {
            let found = State::new(plant, state);
            found.and_then(|state| state.with(&[], &mut Workspace::new()).read(quantity))
        }
        None => read_alone(plant, quantity, &[]),
    };
    let Some(predicted) = predicted.map(|found| quantity.unscale(found.value)) else {
        let problem = Problem::CapacitanceUnknown { name: &name };
        return Err(RowProblem::new(row.line, problem));
    };
    // A pair that is reversed gives what it gave, below zero; anything else below zero is read with the leads the wrong way round.
    if is_below_zero && (value + predicted).abs() > REVERSED * predicted.abs() {
        let amount = shown(-value).replace(' ', "");
        return Err(RowProblem::new(
            row.line,
            Problem::BelowZero { value: &row.value, name: &name, at: &row.at, amount: &amount },
        ));
    }
    // A thousandth or a thousand times of what is predicted, to a fifth. Little is little, unless it was written with a prefix.
    let is_prefixed = row.value.contains(['m', 'u', 'µ', 'n', 'p', 'k', 'M']);
    let factors = if is_prefixed { &[1e3, 1e-3, 1e6, 1e-6][..] } else { &[1e-3, 1e-6][..] };
    for factor in factors {
        let meant = value * factor;
        let is_meant = (meant / predicted - 1.0).abs() < 0.2
            && !matches!(quantity, Quantity::Insulation { .. } | Quantity::Earth { .. })
            && predicted.abs() < OPEN_OHM;
        if is_meant {
            let (likely, predicted) = (shown(meant), shown(predicted));
            return Err(RowProblem::new(
                row.line,
                Problem::WrongUnit { value: &row.value, name: &name, likely: &likely, predicted: &predicted },
            ));
        }
    }
    Ok(())
}
