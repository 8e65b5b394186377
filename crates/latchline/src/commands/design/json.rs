//! The designs of `design` for programs.

use super::words::{metres, tightest, verdict};
use crate::refusal::Result;
use latchline_design::{Alternative, Asked, Choice, Design, LeftOut, Obstacle, WayOut, Why, warnings};
use latchline_finding::{Language, Money};
use serde::Serialize;

/// The result for programs.
#[derive(Serialize)]
struct Json<'a> {
    /// Missing where no family has a design.
    #[serde(skip_serializing_if = "Option::is_none")]
    chosen: Option<&'a str>,
    families: Vec<FamilyJson<'a>>,
    /// Designs of the chosen family to choose between, cheapest first.
    alternatives: Vec<AlternativeJson<'a>>,
    /// What was asked for besides, and why none of that is offered.
    left_out: Vec<LeftOutJson>,
    /// Which of the alternatives is written, from 1; missing where there is none.
    #[serde(skip_serializing_if = "Option::is_none")]
    written: Option<usize>,
    /// Where there is no design: what would make one, with its cost, or without where it does not.
    ways_out: Vec<WayJson<'a>>,
}

#[derive(Serialize)]
struct WayJson<'a> {
    what: &'a str,
    cost: Option<f64>,
}

/// What was asked for beyond the survey.
#[derive(Serialize)]
struct AskedJson {
    /// `nothing`, `margin_v` or `largest_group`.
    kind: &'static str,
    /// How much; missing where nothing was.
    #[serde(skip_serializing_if = "Option::is_none")]
    value: Option<f64>,
}

impl From<Asked> for AskedJson {
    fn from(asked: Asked) -> Self {
        match asked {
            Asked::Nothing => AskedJson { kind: "nothing", value: None },
            Asked::Margin { volts } => AskedJson { kind: "margin_v", value: Some(volts) },
            Asked::Group { dwellings } => AskedJson { kind: "largest_group", value: Some(dwellings as f64) },
        }
    }
}

#[derive(Serialize)]
struct AlternativeJson<'a> {
    number: usize,
    asked: AskedJson,
    /// What it costs more than the one before.
    step: f64,
    largest_group: usize,
    spare_ports: usize,
    #[serde(skip_serializing_if = "Option::is_none")]
    signal: Option<SignalJson<'a>>,
    design: DesignJson<'a>,
    /// Its site file.
    site: &'a str,
}

#[derive(Serialize)]
struct SignalJson<'a> {
    margin_db: f64,
    band: &'a str,
    station: &'a str,
    caller: &'a str,
}

#[derive(Serialize)]
struct LeftOutJson {
    asked: AskedJson,
    /// `beaten`, `tied` or `not-found`.
    why: &'static str,
    /// By which, or with which, from 1.
    #[serde(skip_serializing_if = "Option::is_none")]
    by: Option<usize>,
    /// Why none was found.
    #[serde(skip_serializing_if = "Option::is_none")]
    obstacle: Option<String>,
}

#[derive(Serialize)]
struct FamilyJson<'a> {
    family: &'a str,
    /// Why there is none; missing where there is one.
    #[serde(skip_serializing_if = "Option::is_none")]
    obstacle: Option<String>,
    /// Missing where there is none.
    #[serde(skip_serializing_if = "Option::is_none")]
    design: Option<DesignJson<'a>>,
}

#[derive(Serialize)]
struct DesignJson<'a> {
    verdict: &'a str,
    cost: f64,
    material: f64,
    labour_minutes: f64,
    lower_bound: f64,
    gap: f64,
    /// What of the cost a plan decides: all but stations, locks and their cables.
    decidable: f64,
    /// What could be saved of that at most, as a fraction.
    saved_of_decidable: f64,
    cheapest_box: f64,
    orders_tried: usize,
    plans_assessed: usize,
    supplies: usize,
    boxes: usize,
    runs: usize,
    new_cable_m: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    tightest: Option<(String, f64)>,
    limits: Vec<LimitJson<'a>>,
    remarks: Vec<&'a str>,
    warnings: Vec<WarningJson<'a>>,
    space: Vec<&'a str>,
}

#[derive(Serialize)]
struct WarningJson<'a> {
    code: &'a str,
    element: Option<&'a str>,
}

#[derive(Serialize)]
struct LimitJson<'a> {
    limit: &'a str,
    price: f64,
}

fn design_json(design: &Design) -> DesignJson<'_> {
    DesignJson {
        verdict: verdict(design),
        cost: design.cost.as_units(),
        material: design.material.as_units(),
        labour_minutes: design.minutes,
        lower_bound: design.lower_bound.as_units(),
        gap: design.gap(),
        decidable: design.decidable().as_units(),
        saved_of_decidable: design.saved_of_decidable(),
        cheapest_box: design.cheapest_box.as_units(),
        orders_tried: design.orders,
        plans_assessed: design.assessed,
        supplies: design.site.supplies.len(),
        boxes: design.site.boxes.len(),
        runs: design.site.runs.len(),
        new_cable_m: metres(design),
        tightest: tightest(design),
        limits: design
            .binding
            .iter()
            .map(|binding| LimitJson {
                limit: binding.limit.of(Language::English),
                price: binding.price.as_units(),
            })
            .collect(),
        remarks: design.remarks.iter().map(|remark| remark.of(Language::English)).collect(),
        warnings: warnings(design)
            .map(|warning| WarningJson {
                code: warning.code.as_str(),
                element: warning.element.as_ref().map(|element| element.as_str()),
            })
            .collect(),
        space: design.space.iter().map(|line| line.of(Language::English)).collect(),
    }
}

/// The designs for programs.
pub(super) fn json(
    results: &[(String, Result<Design, Obstacle>)],
    choice: Option<(&Choice, usize)>,
    ways: &[WayOut],
) -> Result<String> {
    let families = results.iter().map(|(family, result)| FamilyJson {
        family,
        obstacle: result.as_ref().err().map(ToString::to_string),
        design: result.as_ref().ok().map(design_json),
    });
    let way = |way: &'_ WayOut| -> (String, Option<f64>) {
        (way.what.of(Language::English).to_string(), way.cost.map(Money::as_units))
    };
    let ways: Vec<(String, Option<f64>)> = ways.iter().map(way).collect();
    let ways_out = ways.iter().map(|(what, cost)| WayJson { what, cost: *cost }).collect();
    let none: (Vec<Alternative>, Vec<LeftOut>) = (Vec::new(), Vec::new());
    let (list, left_out) = choice.map_or((&none.0, &none.1), |(choice, _)| (&choice.list, &choice.left_out));
    let alternatives = list.iter().enumerate().map(|(at, one)| {
        let before = at.checked_sub(1).map_or(one.merits.cost, |before| list[before].merits.cost);
        AlternativeJson {
            number: at + 1,
            asked: one.asked.into(),
            step: (one.merits.cost - before).as_units(),
            largest_group: one.merits.largest_group,
            spare_ports: one.merits.spare_ports,
            signal: one.merits.signal.as_ref().map(|signal| SignalJson {
                margin_db: signal.margin_db,
                band: &signal.band,
                station: signal.station.as_str(),
                caller: signal.caller.as_str(),
            }),
            design: design_json(&one.design),
            site: &one.design.text,
        }
    });
    let left_out = left_out.iter().map(|one| {
        let (why, by, obstacle) = match &one.why {
            Why::Beaten(by) => ("beaten", Some(by + 1), None),
            Why::Tied(with) => ("tied", Some(with + 1), None),
            Why::NotFound(obstacle) => ("not-found", None, Some(obstacle.to_string())),
        };
        LeftOutJson { asked: one.asked.into(), why, by, obstacle }
    });
    let result = Json {
        chosen: list.first().map(|one| one.design.family.as_str()),
        families: families.collect(),
        alternatives: alternatives.collect(),
        left_out: left_out.collect(),
        written: choice.map(|(_, number)| number),
        ways_out,
    };
    Ok(latchline_report::json::text(&result)?)
}
