//! What `design` says of its designs.

use anyhow::Result;
use latchline_design::{Design, Obstacle, WayOut};
use latchline_finding::{Both, Finding, Language, Money, Severity, shown};
use latchline_words::design::{ComparisonHead, DesignVerdict, DesignWords, WayOutWords};
use latchline_words::figures;
use serde::Serialize;
use std::fmt::Write as _;
use std::path::Path;

fn verdict(design: &Design) -> &'static str {
    design.assessment.verdict.word()
}

/// The least margin of any station and its name.
fn tightest(design: &Design) -> Option<(String, f64)> {
    let devices = design.assessment.devices.iter();
    let worst = devices.min_by(|a, b| a.worst.margin_v().total_cmp(&b.worst.margin_v()))?;
    Some((worst.id.to_string(), worst.worst.margin_v()))
}

/// Money as the reader writes it.
pub(super) fn amount(amount: Money, language: Language) -> String {
    figures::money(amount, language)
}

fn metres(design: &Design) -> f64 {
    let cable = latchline_site::bill::BillKind::Cable;
    design.bill.lines.iter().filter(|line| line.kind == cable).map(|line| line.quantity).sum()
}

/// Its warnings, which a person must know before it is ordered.
fn warnings(design: &Design) -> impl Iterator<Item = &Finding> {
    let findings = design.assessment.findings.iter();
    findings.filter(|finding| finding.severity == Severity::Warning && finding.accepted.is_none())
}

/// The same, one for each code: the first, with the names of the other elements that have it.
fn warnings_joined(design: &Design) -> Vec<(&Finding, Vec<String>)> {
    let mut joined: Vec<(&Finding, Vec<String>)> = Vec::new();
    for warning in warnings(design) {
        match joined.iter_mut().find(|(first, _)| first.code == warning.code) {
            Some((_, others)) => {
                others.extend(
                    warning.element.as_ref().map(|element| shown::prose(element.as_str()).into_owned()),
                );
            }
            None => joined.push((warning, Vec::new())),
        }
    }
    joined
}

/// What would make a design where there is none.
pub(super) fn ways_words(ways: &[WayOut], currency: &str, language: Language) -> String {
    let mut text = String::new();
    let (found, in_vain): (Vec<&WayOut>, Vec<&WayOut>) = ways.iter().partition(|way| way.cost.is_some());
    if !found.is_empty() {
        let _ = writeln!(text, "{}", WayOutWords::Head.say(language));
    }
    for way in found {
        let cost = &amount(way.cost.unwrap_or(Money::ZERO), language);
        let words = WayOutWords::Priced { what: &way.what, cost, currency };
        let _ = writeln!(text, "  {}", words.say(language));
    }
    if !in_vain.is_empty() {
        let list = |language| in_vain.iter().map(|way| way.what.of(language)).collect::<Vec<_>>().join("; ");
        let ways = &Both::new(list(Language::English), list(Language::German));
        let _ = writeln!(text, "{}", WayOutWords::InVain { ways }.say(language));
    }
    text
}

/// What a design is, for a person; `has_kinds`: with the list of the kinds of design that the bound holds for.
pub(super) fn report(
    design: &Design,
    currency: &str,
    file: Option<&Path>,
    has_kinds: bool,
    language: Language,
) -> String {
    let say = |words: DesignWords<'_>| words.say(language);
    let fixed = |value, decimals| figures::decimals(figures::fixed(value, decimals), language);
    let money = |money| amount(money, language);
    let mut text = String::new();
    let site = &design.site;
    let file = file.map(shown::path);
    let file = file.as_deref();
    if let Some(file) = file {
        let verdict = &verdict_words(design);
        let _ = writeln!(text, "{}", say(DesignWords::Wrote { file, family: &design.family, verdict }));
    }
    let contents = DesignWords::Contents {
        supplies: &DesignWords::Supplies { count: site.supplies.len() }.both(),
        boxes: &DesignWords::Boxes { count: site.boxes.len() }.both(),
        runs: &DesignWords::Runs { count: site.runs.len() }.both(),
        cable: &fixed(metres(design), 1),
        stations: &DesignWords::Stations { count: site.stations.len() }.both(),
    };
    let _ = writeln!(text, "\n{}", say(contents));
    if let Some((device, margin_v)) = tightest(design) {
        let margin = &fixed((margin_v * 100.0).floor() / 100.0, 2);
        let _ = writeln!(text, "{}", say(DesignWords::Tightest { device: &device, margin }));
    }
    let cost = DesignWords::Cost {
        cost: &money(design.cost),
        currency,
        material: &money(design.material),
        hours: &fixed(design.minutes / 60.0, 1),
    };
    let bound = DesignWords::Bound {
        bound: &money(design.lower_bound),
        saved: &fixed((design.gap() * 1e4).ceil() / 100.0, 2),
    };
    let _ = writeln!(text, "\n{}\n{}", say(cost), say(bound));
    if !has_kinds {
        text.push_str(&(say(DesignWords::KindsInShort) + "\n"));
    }
    text.push_str(&(say(DesignWords::MaterialHolds) + "\n"));
    match design.bill.unpriced() {
        0 => {}
        1 => text.push_str(&(say(DesignWords::LineWithoutPrice) + "\n")),
        lines => {
            let _ = writeln!(text, "{}", say(DesignWords::LinesWithoutPrice { lines }));
        }
    }
    for remark in &design.remarks {
        let _ = writeln!(text, "{}", remark.of(language));
    }
    for (warning, others) in warnings_joined(design) {
        let message = &latchline_words::codes::wording(warning, language).message;
        let also = &others.join(", ");
        let also = (!also.is_empty()).then_some(also.as_str());
        let words = DesignWords::Warning { message, code: warning.code.as_str(), also };
        let _ = writeln!(text, "{}", words.say(language));
    }
    for binding in &design.binding {
        let price = &money(binding.price);
        let _ = writeln!(text, "{}", say(DesignWords::LimitCosts { limit: &binding.limit, price }));
    }
    if has_kinds {
        let _ = writeln!(text, "\n{}", say(DesignWords::Kinds));
        for line in &design.space {
            let _ = writeln!(text, "- {}", line.of(language));
        }
    }
    if let Some(file) = file {
        let _ = writeln!(text, "\n{}", say(DesignWords::Next { file }));
    }
    text
}

fn verdict_words(design: &Design) -> DesignVerdict {
    match verdict(design) {
        "holds" => DesignVerdict::Passes,
        "holds-on-assumed-data" => DesignVerdict::PassesAssumed,
        _ => DesignVerdict::PassesJudged,
    }
}

/// Why there is none.
pub(super) fn no_design(results: &[(String, Result<Design, Obstacle>)], language: Language) -> String {
    let mut text = DesignWords::NoDesign.say(language) + "\n";
    for (family, result) in results {
        if let Err(obstacle) = result {
            let words = DesignWords::Obstacle { family, obstacle: &obstacle.say(language) };
            let _ = writeln!(text, "  {}", words.say(language));
        }
    }
    text
}

/// The designs of all families.
pub(super) fn side_by_side(
    results: &[(String, Result<Design, Obstacle>)],
    currency: &str,
    language: Language,
) -> String {
    let mut text = String::new();
    let head = |head: ComparisonHead| head.say(language);
    let fixed = |value, decimals| figures::decimals(figures::fixed(value, decimals), language);
    let _ = writeln!(
        text,
        "{:<14} {:>12} {:>12} {:>8} {:>9} {:>6} {:>9} {:>9}  {}",
        head(ComparisonHead::Family),
        DesignWords::CostIn { currency }.say(language),
        head(ComparisonHead::AtLeast),
        head(ComparisonHead::Boxes),
        head(ComparisonHead::Supplies),
        head(ComparisonHead::Runs),
        head(ComparisonHead::CableMetres),
        head(ComparisonHead::VoltsInHand),
        head(ComparisonHead::Verdict)
    );
    for (family, result) in results {
        let Ok(design) = result else { continue };
        let margin_v = tightest(design).map_or(0.0, |(_, margin)| (margin * 100.0).floor() / 100.0);
        let _ = writeln!(
            text,
            "{family:<14} {:>12} {:>12} {:>8} {:>9} {:>6} {:>9} {:>9}  {}",
            amount(design.cost, language),
            amount(design.lower_bound, language),
            design.site.boxes.len(),
            design.site.supplies.len(),
            design.site.runs.len(),
            fixed(metres(design), 1),
            fixed(margin_v, 2),
            verdict_words(design).say(language)
        );
    }
    for (family, result) in results {
        if let Err(obstacle) = result {
            let words = DesignWords::CannotFamily { obstacle: &obstacle.say(language) };
            let _ = writeln!(text, "{family:<14} {}", words.say(language));
        }
    }
    text
}

/// The result for programs.
#[derive(Serialize)]
struct Json<'a> {
    /// Missing where no family has a design.
    #[serde(skip_serializing_if = "Option::is_none")]
    chosen: Option<&'a str>,
    families: Vec<FamilyJson<'a>>,
    /// Where there is no design: what would make one, with its cost, or without where it does not.
    ways_out: Vec<WayJson<'a>>,
}

#[derive(Serialize)]
struct WayJson<'a> {
    what: &'a str,
    cost: Option<f64>,
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

/// The designs for programs.
pub(super) fn json(
    results: &[(String, Result<Design, Obstacle>)],
    best: Option<&Design>,
    ways: &[WayOut],
) -> Result<String> {
    let families = results.iter().map(|(family, result)| FamilyJson {
        family,
        obstacle: result.as_ref().err().map(ToString::to_string),
        design: result.as_ref().ok().map(|design| DesignJson {
            verdict: verdict(design),
            cost: design.cost.as_units(),
            material: design.material.as_units(),
            labour_minutes: design.minutes,
            lower_bound: design.lower_bound.as_units(),
            gap: design.gap(),
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
        }),
    });
    let way = |way: &'_ WayOut| -> (String, Option<f64>) {
        (way.what.of(Language::English).to_string(), way.cost.map(Money::as_units))
    };
    let ways: Vec<(String, Option<f64>)> = ways.iter().map(way).collect();
    let ways_out = ways.iter().map(|(what, cost)| WayJson { what, cost: *cost }).collect();
    let result =
        Json { chosen: best.map(|design| design.family.as_str()), families: families.collect(), ways_out };
    Ok(latchline_report::json::text(&result)?)
}
