//! What `design` says of its designs.

use latchline_design::{Design, Obstacle, WayOut, warnings};
use latchline_finding::{Both, Finding, Language, Money, shown};
use latchline_words::commands::WrittenWords;
use latchline_words::design::{ComparisonHead, DesignVerdict, DesignWords, WayOutWords};
use latchline_words::figures;
use std::fmt::Write as _;
use std::path::Path;

/// The word of its verdict.
pub(super) fn verdict(design: &Design) -> &'static str {
    design.assessment.verdict.word()
}

/// The least margin of any station and its name.
pub(super) fn tightest(design: &Design) -> Option<(String, f64)> {
    let worst = &design.assessment.devices[design.assessment.tightest_device()?];
    Some((worst.id.to_string(), worst.worst.margin_v()))
}

/// Money as the reader writes it.
pub(super) fn amount(amount: Money, language: Language) -> String {
    figures::money(amount, language)
}

/// New cable in metres.
pub(super) fn metres(design: &Design) -> f64 {
    let cable = latchline_site::bill::BillKind::Cable;
    design.bill.lines.iter().filter(|line| line.kind == cable).map(|line| line.quantity).sum()
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

/// How designs are shown.
pub(super) struct Shown<'a> {
    /// Currency of the amounts.
    pub currency: &'a str,
    /// The site file that was written.
    pub file: &'a Path,
    /// Whether the kinds of design are listed that the bound holds for.
    pub has_kinds: bool,
    /// Language.
    pub language: Language,
}

/// What the chosen design is, for a person, with what sets it beside the others.
pub(super) fn report(design: &Design, side_by_side: &str, shown: &Shown<'_>) -> String {
    let Shown { currency, has_kinds, language, .. } = *shown;
    let say = |words: DesignWords<'_>| words.say(language);
    let fixed = |value, decimals| figures::decimals(figures::fixed(value, decimals), language);
    let money = |money| amount(money, language);
    let mut text = String::new();
    let site = &design.site;
    let file = shown::path(shown.file);
    let file = &*file;
    let verdict = &verdict_words(design);
    let _ = writeln!(text, "{}", say(DesignWords::Wrote { file, family: &design.family, verdict }));
    let contents = DesignWords::Contents {
        supplies: &DesignWords::Supplies { count: site.supplies.len() }.both(),
        boxes: &DesignWords::Boxes { count: site.boxes.len() }.both(),
        runs: &DesignWords::Runs { count: site.runs.len() }.both(),
        cable: &fixed(metres(design), 1),
        stations: &DesignWords::Stations { count: site.stations.len() }.both(),
    };
    let _ = writeln!(text, "\n{}", say(contents));
    if let Some((device, margin_v)) = tightest(design) {
        let margin = &figures::volts(margin_v, language);
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
        saved: &fixed((design.saved_at_most() * 1e4).ceil() / 100.0, 2),
        saved_of_part: &fixed((design.saved_of_decidable() * 1e4).ceil() / 100.0, 2),
        part: &money(design.decidable()),
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
    if !side_by_side.is_empty() {
        let _ = write!(text, "\n{side_by_side}");
    }
    if has_kinds {
        let _ = writeln!(text, "\n{}", say(DesignWords::Kinds));
        for line in &design.space {
            let _ = writeln!(text, "- {}", line.of(language));
        }
    }
    let _ = writeln!(text, "\n{}", WrittenWords::NextCheck { file }.say(language));
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
        let margin_v = tightest(design).map_or(0.0, |(_, margin_v)| figures::down(margin_v, 2));
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
