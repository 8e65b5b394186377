//! The JSON of `locate`.

use super::question_json::{PlaceOut, QuestionOut, places_out};
use super::unusable::Unusable;
use crate::refusal::Result;
use latchline_answer::{AsDrawnOf, Reader};
use latchline_assess::physics_summary::PowerReturnOutcome;
use latchline_finding::Language;
use latchline_locate::{Evidence, Located, Quantity, Question, exact_state_name, place_name, state_name};
use latchline_site::model::Site;
use schemars::JsonSchema;
use serde::Serialize;

/// The result of `locate --format json`.
#[derive(Serialize, JsonSchema)]
struct LocateDocument {
    /// Version of this form.
    format_version: u32,
    /// Version of the program.
    latchline_version: &'static str,
    /// Of each place that is told of, whether the site as drawn is the reason.
    as_drawn: Vec<AsDrawnOut>,
    /// Causes, the most probable first.
    causes: Vec<CauseOut>,
    /// Places to look at, the most probable first; those of less than a thousandth are left out.
    places: Vec<PlaceOut>,
    /// Probability of something that the list does not have.
    none_of_these: f64,
    /// Whether nothing in the list explains the readings well.
    nothing_fits: bool,
    /// Readings as they were used, with the probability that each is wrong.
    readings: Vec<ReadingOut>,
    /// What can be asked on the telephone before anybody goes; left out where something was read, or where no question helps.
    #[serde(skip_serializing_if = "Option::is_none")]
    question: Option<QuestionOut>,
    /// The reading that tells most for its effort.
    #[serde(skip_serializing_if = "Option::is_none")]
    next_reading: Option<NextOut>,
    /// The reading that proves the mend of the first cause.
    #[serde(skip_serializing_if = "Option::is_none")]
    proof: Option<ProofOut>,
    /// What could not be used.
    problems: Vec<ProblemOut>,
    /// What has to be known first: nothing was read, or the site as drawn does not pass.
    notes: Vec<String>,
    /// Pictures that were drawn, where they were asked for.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pictures: Vec<String>,
}

/// What is said besides the ranking.
pub(super) struct Besides<'a> {
    pub drawn: &'a [AsDrawnOf<'a>],
    pub problems: &'a [Unusable],
    pub notes: &'a [String],
    pub pictures: &'a [String],
}

/// What the site as drawn says of a place that is told of.
#[derive(Serialize, JsonSchema)]
struct AsDrawnOut {
    /// The station.
    element: String,
    /// Whether it has less there than it needs, in the state that was told of.
    is_the_reason: bool,
    /// Code of what the check finds there that shows as what is told, beside the voltage.
    #[serde(skip_serializing_if = "Option::is_none")]
    finding: Option<&'static str>,
    /// That state.
    state: &'static str,
    /// Least voltage there in that state with every tolerance against it, in V; left out where the voltage collapses.
    #[serde(skip_serializing_if = "Option::is_none")]
    voltage_v: Option<f64>,
    /// What it needs at that moment, in V.
    limit_v: f64,
    /// The calls that stand then, as a state is written for a reading; left out in standby.
    #[serde(skip_serializing_if = "String::is_empty")]
    calls: String,
    /// The plainest state in which it could show, one call and nothing else or standby, as it is written for a reading.
    plain_state: String,
    /// Least voltage in that with every tolerance against it, in V; left out where the voltage collapses.
    #[serde(skip_serializing_if = "Option::is_none")]
    plain_voltage_v: Option<f64>,
    /// The state with the least margin of all.
    worst_state: &'static str,
    /// The margin in it in V; left out where the voltage collapses.
    #[serde(skip_serializing_if = "Option::is_none")]
    worst_margin_v: Option<f64>,
    /// How often devices drop out before all are up when power returns; left out where that is not judged.
    #[serde(skip_serializing_if = "Option::is_none")]
    dropouts: Option<usize>,
    /// The reading there that decides it, without a fault, in V.
    #[serde(skip_serializing_if = "Option::is_none")]
    reading: Option<ProofOut>,
}

fn as_drawn_out(site: &Site, drawn: &AsDrawnOf<'_>) -> AsDrawnOut {
    let told = &drawn.in_state;
    AsDrawnOut {
        element: drawn.device.id.to_string(),
        is_the_reason: drawn.is_the_reason() || drawn.reason.is_some(),
        finding: drawn.reason.map(|found| found.code.as_str()),
        state: drawn.state.name(),
        voltage_v: told.voltage_v,
        limit_v: told.limit_v,
        calls: match told.bus_state.calls.is_empty() {
            true => String::new(),
            false => exact_state_name(site, &told.bus_state),
        },
        plain_state: exact_state_name(site, &drawn.plain.state),
        plain_voltage_v: drawn.plain.least_v,
        worst_state: drawn.device.worst.state.kind.name(),
        worst_margin_v: Some(drawn.device.worst.margin_v()).filter(|margin| margin.is_finite()),
        dropouts: drawn
            .start_up
            .filter(|start| start.outcome != PowerReturnOutcome::NotJudged)
            .map(|start| start.dropouts),
        reading: drawn.reading.as_ref().map(|reading| ProofOut {
            from: None,
            quantity: reading.quantity.name(),
            at: place_name(site, reading.quantity.place()),
            state: drawn.state_name(site),
            low: reading.low,
            high: reading.high,
        }),
    }
}

/// One cause.
#[derive(Serialize, JsonSchema)]
struct CauseOut {
    /// What, in kebab case.
    kind: String,
    /// Where; empty for the site as a whole.
    element: String,
    /// Its probability.
    probability: f64,
    /// Its size.
    #[serde(skip_serializing_if = "Option::is_none")]
    parameter: Option<ParameterOut>,
    /// Number of the class of causes that the readings do not tell apart, from 1, the most probable first.
    #[serde(skip_serializing_if = "Option::is_none")]
    class: Option<usize>,
}

/// The size of a cause in its unit: ohm, watt, metre, times, or part of a section.
#[derive(Serialize, JsonSchema)]
struct ParameterOut {
    /// Most probable.
    best: f64,
    /// 5 % of the probability lie below.
    low: f64,
    /// 5 % lie above.
    high: f64,
}

/// A reading.
#[derive(Serialize, JsonSchema)]
struct ReadingOut {
    /// voltage, drop, current, loop, insulation, earth or capacitance.
    quantity: &'static str,
    /// Of a drop the place nearer to the supply.
    #[serde(skip_serializing_if = "Option::is_none")]
    from: Option<String>,
    /// Where.
    at: String,
    /// The state; empty in standby by day or for a run alone.
    state: String,
    /// The figure in the SI unit; left out where it reads open.
    #[serde(skip_serializing_if = "Option::is_none")]
    value: Option<f64>,
    /// Probability that it is wrong.
    wrong: f64,
}

/// The next reading.
#[derive(Serialize, JsonSchema)]
struct NextOut {
    /// voltage, drop, current, loop, insulation, earth or capacitance.
    quantity: &'static str,
    /// Of a drop the place nearer to the supply.
    #[serde(skip_serializing_if = "Option::is_none")]
    from: Option<String>,
    /// Where.
    at: String,
    /// The state; empty in standby by day or for a run alone.
    state: String,
    /// What it tells, in bits.
    bits: f64,
    /// Minutes that it takes.
    minutes: f64,
    /// What each outcome would mean.
    outcomes: Vec<OutcomeOut>,
}

/// An outcome of a reading.
#[derive(Serialize, JsonSchema)]
struct OutcomeOut {
    /// Lowest, in the SI unit.
    low: f64,
    /// Highest.
    high: f64,
    /// Its probability.
    probability: f64,
    /// Indices into `causes` of those that predict it.
    causes: Vec<usize>,
    /// The probability that each of them would then have; where a meter sees none of it, that of all such causes together.
    shares: Vec<f64>,
}

/// What proves a mend.
#[derive(Serialize, JsonSchema)]
struct ProofOut {
    /// voltage, drop, current, loop, insulation, earth or capacitance.
    quantity: &'static str,
    /// Of a drop the place nearer to the supply.
    #[serde(skip_serializing_if = "Option::is_none")]
    from: Option<String>,
    /// Where.
    at: String,
    /// The state.
    state: String,
    /// Lowest without a fault.
    low: f64,
    /// Highest.
    high: f64,
}

/// What could not be used.
#[derive(Serialize, JsonSchema)]
struct ProblemOut {
    /// The file; left out for the command line.
    #[serde(skip_serializing_if = "Option::is_none")]
    file: Option<String>,
    /// Its line, or the number of the item.
    line: usize,
    /// What is wrong.
    message: String,
}

/// Its JSON Schema.
pub(in crate::commands) fn schema() -> serde_json::Value {
    latchline_report::json::schema_of::<LocateDocument>("Result of latchline locate")
}
/// The document.
///
/// # Errors
/// If it cannot be serialised.
pub(super) fn json(
    reader: &Reader<'_>,
    evidence: &Evidence,
    located: &Located,
    question: Option<&Question>,
    besides: &Besides<'_>,
) -> Result<String> {
    let Besides { drawn, problems, notes, pictures } = besides;
    let site = reader.site;
    let names = |quantity: &Quantity| {
        let at = place_name(site, quantity.place());
        let state =
            quantity.state().map_or(String::new(), |state| state_name(site, state, Some(quantity.place())));
        let from = match quantity {
            Quantity::Drop { from, .. } => Some(place_name(site, *from)),
            _ => None,
        };
        (quantity.name(), from, at, state)
    };
    let class_of = |place: usize| {
        located.classes.iter().position(|class| class.members.contains(&place)).map(|class| class + 1)
    };
    let causes = (0..located.ranking.causes.len())
        .map(|place| {
            let (hypothesis, posterior) = located.cause(place);
            CauseOut {
                kind: hypothesis.cause.kind.name(),
                element: hypothesis.cause.element.name(site),
                probability: posterior.probability,
                parameter: posterior.size.map(|size| ParameterOut {
                    best: size.best,
                    low: size.low,
                    high: size.high,
                }),
                class: class_of(place),
            }
        })
        .collect();
    let places = places_out(site, &located.places);
    let readings = evidence
        .measured
        .iter()
        .zip(&located.ranking.wrong)
        .map(|(one, wrong)| {
            let (quantity, from, at, state) = names(&one.quantity);
            let value = one.value.is_finite().then_some(one.value);
            ReadingOut { quantity, from, at, state, value, wrong: *wrong }
        })
        .collect();
    let next_reading = located.next.as_ref().map(|next| {
        let (quantity, from, at, state) = names(&next.quantity);
        let outcomes = next
            .meanings
            .iter()
            .map(|meaning| OutcomeOut {
                low: meaning.low,
                high: meaning.high,
                probability: meaning.probability,
                causes: meaning.causes.clone(),
                shares: meaning.shares.clone(),
            })
            .collect();
        NextOut { quantity, from, at, state, bits: next.bits, minutes: next.minutes, outcomes }
    });
    let proof = located.proof.as_ref().map(|proof| {
        let (quantity, from, at, state) = names(&proof.quantity);
        ProofOut { quantity, from, at, state, low: proof.low, high: proof.high }
    });
    let problems = problems
        .iter()
        .map(|(file, problem)| ProblemOut {
            file: file.clone(),
            line: problem.line,
            message: problem.message.of(Language::English).to_string(),
        })
        .collect();
    Ok(latchline_report::json::text(&LocateDocument {
        format_version: 1,
        latchline_version: env!("CARGO_PKG_VERSION"),
        as_drawn: drawn.iter().map(|one| as_drawn_out(site, one)).collect(),
        causes,
        places,
        none_of_these: located.ranking.none_of_these,
        nothing_fits: located.nothing_fits,
        readings,
        question: question.map(|question| QuestionOut::of(reader, question)),
        next_reading,
        proof,
        problems,
        notes: notes.to_vec(),
        pictures: pictures.to_vec(),
    })?)
}
