//! Designs to choose between: the cheapest, one that keeps more margin, one whose broken joints silence fewer.
//!
//! Each of the others is the design of the same survey under a tighter limit, looked for with less effort. What satisfies a tighter
//! limit satisfies the survey's, so one that comes out cheaper than the cheapest takes its place: a tighter limit never gives a
//! cheaper result. No bound is claimed for the others but that of the survey, which holds for them, too.

use crate::design::{GoOn, design_remembering, under};
use crate::effort::Effort;
use crate::limits::least_margin_v;
use crate::merits::Merits;
use crate::obstacle::Obstacle;
use crate::outcome::{Design, Texts};
use latchline_assess::Memory;
use latchline_finding::{Origin, Provenance, Sourced};
use latchline_site::model::USUAL_THIN_MARGIN_V;
use latchline_survey::Survey;

/// Plans of each bus that are assessed for an alternative, at most.
pub const MOST_PLANS: usize = 8;
/// The same where there is time.
const MOST_PLANS_IN_TIME: usize = 64;
/// The most margin that a site file can ask for, in volts.
const MOST_MARGIN_V: f64 = 10.0;
/// How much more margin is asked for, in volts, at least; rounded up to half a volt.
const FURTHER_MARGIN_V: f64 = 0.5;

/// What an alternative was asked for beyond the survey.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Asked {
    /// Nothing: the cheapest.
    Nothing,
    /// So many volts that every station and box has above its limit.
    Margin {
        /// How many.
        volts: f64,
    },
    /// So many dwellings on a run at most, since one broken joint silences a run.
    Group {
        /// How many.
        dwellings: usize,
    },
}

/// One of the designs to choose between.
#[derive(Debug, Clone, PartialEq)]
pub struct Alternative {
    /// What it was asked for.
    pub asked: Asked,
    /// The design.
    pub design: Design,
    /// What it is chosen by.
    pub merits: Merits,
}

/// What was asked for and is not among those to choose between.
#[derive(Debug, Clone, PartialEq)]
pub struct LeftOut {
    /// What was asked for.
    pub asked: Asked,
    /// Why.
    pub why: Why,
}

/// Why an alternative is left out.
#[derive(Debug, Clone, PartialEq)]
pub enum Why {
    /// Another is at least as good in everything and better in something: index into the list.
    Beaten(usize),
    /// Another is the same in everything that is compared: index into the list.
    Tied(usize),
    /// None was found.
    NotFound(Obstacle),
}

/// Designs to choose between.
#[derive(Debug, Clone, PartialEq)]
pub struct Choice {
    /// The cheapest first, each dearer than the one before.
    pub list: Vec<Alternative>,
    /// What was asked for besides.
    pub left_out: Vec<LeftOut>,
    /// What was asked for when a cheaper design than the cheapest came out, which took its place.
    pub cheaper_by: Option<Asked>,
}

/// Looks for others beside the cheapest design of a survey. `effort` is that of the cheapest; without time they get one walking order and few
/// plans. `go_on` is asked as [`design`](crate::design()) does.
pub fn alternatives(
    survey: &Survey,
    cheapest: Design,
    texts: Texts<'_>,
    memory: &Memory,
    effort: Effort,
    go_on: GoOn<'_>,
) -> Choice {
    let mut cheapest = cheapest;
    let mut cheaper_by = None;
    let mut left_out = Vec::new();
    let mut found: Vec<Alternative> = Vec::new();
    let has_time = effort.most_orders > effort.orders;
    let (most_orders, most_plans) =
        if has_time { (effort.most_orders, MOST_PLANS_IN_TIME) } else { (1, MOST_PLANS) };
    let takes_first = !has_time;
    let effort = Effort { orders: 1, most_orders, most_plans, takes_first, prices_limits: false, ..effort };
    for asked in further(survey, &Merits::of(&cheapest)) {
        let tighter = tightened(survey, asked);
        match design_remembering(&tighter, &cheapest.family, texts, memory, effort, &mut *go_on) {
            Ok(design) => {
                if design.cost < cheapest.cost
                    && let Some(same) = under(survey, &design, texts, memory)
                    && same.cost < cheapest.cost
                {
                    cheaper_by = Some(asked);
                    cheapest = Design {
                        lower_bound: cheapest.lower_bound,
                        space: cheapest.space,
                        orders: cheapest.orders,
                        assessed: cheapest.assessed + design.assessed,
                        binding: cheapest.binding,
                        ..same
                    };
                }
                found.push(Alternative { asked, merits: Merits::of(&design), design });
            }
            Err(obstacle) => left_out.push(LeftOut { asked, why: Why::NotFound(obstacle) }),
        }
    }
    found.push(Alternative { asked: Asked::Nothing, merits: Merits::of(&cheapest), design: cheapest });
    // Of those that cost the same the one that was asked for nothing comes first, and ties go to it.
    found.sort_by_key(|one| (one.merits.cost.as_hundredths(), one.asked != Asked::Nothing));
    let mut list: Vec<Alternative> = Vec::new();
    let mut beaten: Vec<(Asked, usize, bool)> = Vec::new();
    for at in 0..found.len() {
        let own = &found[at].merits;
        let by = (0..found.len()).find(|other| {
            let theirs = &found[*other].merits;
            let is_first = *other < at && theirs.is_tied_with(own);
            *other != at && theirs.is_as_good_as(own) && (is_first || !theirs.is_tied_with(own))
        });
        // The cheapest stays, whatever else costs as much: it is what is written.
        match by.filter(|_| found[at].asked != Asked::Nothing) {
            Some(by) => beaten.push((found[at].asked, by, found[by].merits.is_tied_with(own))),
            None => list.push(found[at].clone()),
        }
    }
    let place = |by: usize| {
        let better = list.iter().position(|one| one.asked == found[by].asked);
        better
            .or_else(|| list.iter().position(|one| one.merits.is_as_good_as(&found[by].merits)))
            .unwrap_or(0)
    };
    left_out.extend(beaten.into_iter().map(|(asked, by, is_tie)| {
        let why = if is_tie { Why::Tied(place(by)) } else { Why::Beaten(place(by)) };
        LeftOut { asked, why }
    }));
    Choice { list, left_out, cheaper_by }
}

/// What is asked for beside the cheapest.
fn further(survey: &Survey, cheapest: &Merits) -> Vec<Asked> {
    let mut list = Vec::new();
    if let Some((_, margin_v)) = cheapest.margin {
        let least_v = margin_v.max(least_margin_v(survey));
        // Not less than what keeps a station from being called thin.
        let thin_v = survey.settings.thin_margin_v.unwrap_or(USUAL_THIN_MARGIN_V);
        let volts = ((least_v + FURTHER_MARGIN_V).max(thin_v) * 2.0).ceil() / 2.0;
        if volts <= MOST_MARGIN_V {
            list.push(Asked::Margin { volts });
        }
    }
    if cheapest.largest_group > 1 {
        list.push(Asked::Group { dwellings: cheapest.largest_group / 2 });
    }
    list
}

fn stated<T>(value: T) -> Option<Sourced<T>> {
    Some(Sourced::new(value, Origin::None, Provenance::Stated))
}

/// The survey with the tighter limit.
pub fn tightened(survey: &Survey, asked: Asked) -> Survey {
    let mut tighter = survey.clone();
    match asked {
        Asked::Nothing => {}
        Asked::Margin { volts } => tighter.settings.least_margin_v = stated(volts),
        Asked::Group { dwellings } => {
            tighter.settings.largest_group = stated(u32::try_from(dwellings).unwrap_or(u32::MAX));
        }
    }
    tighter
}
