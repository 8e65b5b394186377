//! The designs to choose between, side by side.

use super::words::{Shown, amount};
use latchline_design::alternatives::MOST_PLANS;
use latchline_design::{Asked, Choice, Merits, Why};
use latchline_finding::{Both, Language, shown};
use latchline_words::alternatives::{ChoiceHead, ChoiceWords};
use latchline_words::figures;
use std::fmt::Write as _;

/// What was asked for, as the head of a column.
pub(super) fn asked_words(asked: Asked) -> Both {
    let say = |language: Language| match asked {
        Asked::Nothing => ChoiceWords::Cheapest.say(language),
        Asked::Margin { volts } => {
            let volts = &figures::decimals(figures::trimmed(volts, 2), language);
            ChoiceWords::MarginAsked { volts }.say(language)
        }
        Asked::Group { dwellings } => ChoiceWords::GroupAsked { dwellings }.say(language),
    };
    Both::new(say(Language::English), say(Language::German))
}

/// The figures of a design in the order of the heads, as they are shown: margins rounded down.
pub(super) fn figures_of(merits: &Merits, currency: &str, language: Language) -> Vec<(ChoiceHead, String)> {
    let unknown = || ChoiceWords::Unknown.say(language);
    let margin = merits.margin.as_ref().map_or_else(unknown, |(device, margin_v)| {
        ChoiceWords::VoltsAt { volts: &figures::volts(*margin_v, language), device: device.as_str() }
            .say(language)
    });
    let signal = merits.signal.as_ref().map_or_else(unknown, |signal| {
        let (station, caller) = (signal.station.as_str(), signal.caller.as_str());
        let decibels = &figures::decimals(figures::rounded_down(signal.margin_db, 1), language);
        ChoiceWords::DecibelsAt { decibels, station, caller }.say(language)
    });
    let hours = &figures::decimals(figures::fixed(merits.labour_minutes / 60.0, 1), language);
    vec![
        (ChoiceHead::Cost, format!("{} {currency}", amount(merits.cost, language))),
        (ChoiceHead::Margin, margin),
        (ChoiceHead::Signal, signal),
        (ChoiceHead::Silenced, ChoiceWords::Dwellings { dwellings: merits.largest_group }.say(language)),
        (ChoiceHead::Warnings, merits.warnings.to_string()),
        (ChoiceHead::Labour, ChoiceWords::Hours { hours }.say(language)),
        (ChoiceHead::SparePorts, merits.spare_ports.to_string()),
    ]
}

/// Words of a difference, from its number.
type Difference = for<'n> fn(&'n str) -> ChoiceWords<'n>;

/// What a step from one design to the next gains and loses.
fn step(from: &Merits, to: &Merits) -> (Option<Both>, Option<Both>) {
    let (mut gains, mut losses): (Vec<Both>, Vec<Both>) = (Vec::new(), Vec::new());
    let mut tell = |is_gain: bool, words: Both| if is_gain { gains.push(words) } else { losses.push(words) };
    let mut compared = |figure: fn(&Merits) -> Option<f64>, decimals: usize, words: [Difference; 2]| {
        let shown = |merits: &Merits| figure(merits).map(|value| figures::down(value, decimals));
        let (Some(before), Some(after)) = (shown(from), shown(to)) else { return };
        let more = after - before;
        if more.abs() > 1e-9 {
            let is_gain = more > 0.0;
            let say = |language| {
                let number = figures::decimals(figures::fixed(more.abs(), decimals), language);
                words[usize::from(!is_gain)](&number).say(language)
            };
            tell(is_gain, Both::new(say(Language::English), say(Language::German)));
        }
    };
    compared(
        |merits| merits.margin.as_ref().map(|(_, margin_v)| *margin_v),
        2,
        [|volts| ChoiceWords::MoreVolts { volts }, |volts| ChoiceWords::LessVolts { volts }],
    );
    compared(
        |merits| merits.signal.as_ref().map(|signal| signal.margin_db),
        1,
        [
            |decibels| ChoiceWords::MoreDecibels { decibels },
            |decibels| ChoiceWords::LessDecibels { decibels },
        ],
    );
    let dwellings = from.largest_group.abs_diff(to.largest_group);
    if dwellings > 0 {
        let is_fewer = to.largest_group < from.largest_group;
        let fewer = ChoiceWords::FewerSilenced { dwellings };
        let more = ChoiceWords::MoreSilenced { dwellings };
        tell(is_fewer, if is_fewer { fewer.both() } else { more.both() });
    }
    let warnings = from.warnings.abs_diff(to.warnings);
    if warnings > 0 {
        let is_fewer = to.warnings < from.warnings;
        let fewer = ChoiceWords::FewerWarnings { warnings };
        let more = ChoiceWords::MoreWarnings { warnings };
        tell(is_fewer, if is_fewer { fewer.both() } else { more.both() });
    }
    let joined = |list: Vec<Both>| {
        let say = |language| list.iter().map(|one| one.of(language)).collect::<Vec<_>>().join(", ");
        (!list.is_empty()).then(|| Both::new(say(Language::English), say(Language::German)))
    };
    (joined(gains), joined(losses))
}

/// The designs side by side, what each step costs and buys, and what is left out.
pub(super) fn choice_words(choice: &Choice, number: usize, shown: &Shown<'_>) -> String {
    let language = shown.language;
    let say = |words: ChoiceWords<'_>| words.say(language);
    let mut text = String::new();
    if choice.list.len() > 1 {
        let _ = writeln!(text, "{}", say(ChoiceWords::Head { count: choice.list.len() }));
        let columns: Vec<Vec<String>> = choice
            .list
            .iter()
            .enumerate()
            .map(|(at, one)| {
                let head = format!("{} {}", at + 1, asked_words(one.asked).of(language));
                let figures = figures_of(&one.merits, shown.currency, language);
                std::iter::once(head).chain(figures.into_iter().map(|(_, figure)| figure)).collect()
            })
            .collect();
        let heads: Vec<String> = std::iter::once(String::new())
            .chain(
                figures_of(&choice.list[0].merits, shown.currency, language)
                    .iter()
                    .map(|(head, _)| head.say(language).to_string()),
            )
            .collect();
        let width = |column: &[String]| column.iter().map(|cell| cell.chars().count()).max().unwrap_or(0);
        for (row, head) in heads.iter().enumerate() {
            let mut line = format!("  {head:<width$}", width = width(&heads));
            for column in &columns {
                let _ = write!(line, "  {:<width$}", column[row], width = width(column));
            }
            let _ = writeln!(text, "{}", line.trim_end());
        }
        for (at, pair) in choice.list.windows(2).enumerate() {
            let (gains, losses) = step(&pair[0].merits, &pair[1].merits);
            let price = &amount(pair[1].merits.cost - pair[0].merits.cost, language);
            let words = ChoiceWords::StepBuys {
                from: at + 1,
                to: at + 2,
                price,
                currency: shown.currency,
                gains: gains.as_ref(),
                losses: losses.as_ref(),
            };
            let _ = writeln!(text, "{}", say(words));
        }
    } else {
        let _ = writeln!(text, "{}", say(ChoiceWords::Single));
    }
    for one in &choice.left_out {
        let asked = &asked_words(one.asked);
        let words = match &one.why {
            Why::Beaten(by) => say(ChoiceWords::Beaten { asked, by: by + 1 }),
            Why::Tied(with) => say(ChoiceWords::Tied { asked, with: with + 1 }),
            Why::NotFound(obstacle) => {
                let why = Both::new(obstacle.say(Language::English), obstacle.say(Language::German));
                say(ChoiceWords::NotFound { asked, why: &why })
            }
        };
        let _ = writeln!(text, "{words}");
    }
    if let Some(asked) = choice.cheaper_by {
        let _ = writeln!(text, "{}", say(ChoiceWords::CheaperBy { asked: &asked_words(asked) }));
    }
    if choice.list.len() > 1 {
        let _ = writeln!(text, "{}", say(ChoiceWords::Effort { plans: MOST_PLANS }));
        let file = &shown::path(shown.file);
        let _ = writeln!(text, "{}", say(ChoiceWords::Written { number, file }));
    }
    text
}
