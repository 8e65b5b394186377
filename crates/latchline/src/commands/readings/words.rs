//! What came back from site, for a person and for programs.

use latchline_finding::{Language, Locale, shown};
use latchline_phone::{Comparison, Event, Judgement, Merged, PlanStep, Side, WorkPlan};
use latchline_words::commands::{ReadingsHead, ReadingsWords};
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::fmt::Write as _;

/// Most places that are listed one by one under what is missing.
const MOST_PLACES: usize = 40;

/// For a person.
pub(super) fn text(plan: &WorkPlan, found: &Comparison<'_>, locale: Locale) -> String {
    let language = locale.language;
    let (site, revision) = (plan.site.as_str(), plan.revision.as_str());
    let (asked, read) = (found.asked, found.asked - found.missing.len());
    let (others, done) = found.others;
    let stand = ReadingsWords::Stand { site, revision, read, asked, done, others };
    let mut out = format!("{}\n", shown::prose(&stand.say(language)));
    if found.is_clean() {
        out.push_str(&format!("{}\n", ReadingsWords::Clean.say(language)));
    }
    let mut block = |head: ReadingsHead, lines: Vec<String>| {
        if !lines.is_empty() {
            let _ = writeln!(out, "{} ({}):", head.say(language), lines.len());
            lines.iter().for_each(|line| {
                let _ = writeln!(out, "  {}", shown::prose(line));
            });
        }
    };
    let at = |step: &PlanStep| at(step, language);
    block(ReadingsHead::OutOfRange, found.outside().map(|one| judged(plan, one, locale)).collect());
    let conflicts = found.conflicts.iter().map(|(step, events)| {
        let each = events
            .iter()
            .map(|event| format!("{} ({})", value(event.value.flatten(), step, locale), by(event, locale)));
        let all = each.reduce(|one, other| ReadingsWords::And { one: &one, other: &other }.say(language));
        format!("{}: {}: {}", at(step), plan.text_of(step), all.unwrap_or_default())
    });
    block(ReadingsHead::Conflicts, conflicts.collect());
    let noted = |event: &&Event| {
        let place = event.place.as_deref().filter(|place| !place.is_empty());
        let place = place.unwrap_or(ReadingsHead::WholeSite.say(language));
        format!("{place}: {} ({})", event.text.as_deref().unwrap_or_default(), by(event, locale))
    };
    block(ReadingsHead::Snags, found.snags.iter().map(noted).collect());
    block(ReadingsHead::NotEntered, found.not_entered.iter().map(noted).collect());
    let exchanged = found.exchanges.iter().map(|event| {
        let of = |name: &str| detail(event, name);
        let words = ReadingsWords::Swapped {
            old: of("old_serial"),
            fresh: of("new_serial"),
            before: of("before"),
            after: of("after"),
            fault: of("fault"),
        };
        format!("{}: {}", event.place.as_deref().unwrap_or_default(), words.say(language))
    });
    block(ReadingsHead::Exchanged, exchanged.collect());
    let others = found.not_of_this_plan.iter().map(|event| {
        let read = event.text.as_deref().unwrap_or_default();
        let words =
            ReadingsWords::OfRevision { value: read, revision: &event.revision, by: by(event, locale) };
        format!("{}: {}", event.place.as_deref().unwrap_or_default(), words.say(language))
    });
    block(ReadingsHead::OtherRevision, others.collect());
    if !found.missing.is_empty() {
        let _ = writeln!(out, "{} ({}):", ReadingsHead::Missing.say(language), found.missing.len());
        let mut places: Vec<(String, usize)> = Vec::new();
        for step in &found.missing {
            match places.iter_mut().find(|(place, _)| *place == at(step)) {
                Some((_, count)) => *count += 1,
                None => places.push((at(step), 1)),
            }
        }
        let rest = places.len().saturating_sub(MOST_PLACES);
        let each = |(place, count): &(String, usize)| {
            if *count > 1 { format!("{place} ({count})") } else { place.clone() }
        };
        let list: Vec<String> = places.iter().take(MOST_PLACES).map(each).collect();
        let more = if rest > 0 { format!(", +{rest}") } else { String::new() };
        let _ = writeln!(out, "  {}{more}", shown::prose(&list.join(", ")));
    }
    out
}

/// Where a step is.
fn at(step: &PlanStep, language: Language) -> String {
    if step.place.is_empty() { ReadingsHead::WholeSite.say(language).to_string() } else { step.place.clone() }
}

/// One reading: where, what, the value, what was expected, and who read it.
pub(in crate::commands) fn judged(plan: &WorkPlan, one: &Judgement<'_>, locale: Locale) -> String {
    let words = ReadingsWords::Judged {
        what: plan.text_of(one.step),
        value: &value(one.value, one.step, locale),
        range: &range(one.step, locale),
        by: by(one.event, locale),
    };
    format!("{}: {}", at(one.step, locale.language), words.say(locale.language))
}

fn by(event: &Event, locale: Locale) -> &str {
    if event.by.is_empty() { ReadingsHead::Nobody.say(locale.language) } else { &event.by }
}

fn detail<'e>(event: &'e Event, name: &str) -> &'e str {
    let found = event.details.iter().find(|(key, value)| key == name && !value.is_empty());
    found.map_or("–", |(_, value)| value.as_str())
}

/// A value with its unit: with the decimals of the sheet, or more if more were keyed in.
fn value(value: Option<f64>, step: &PlanStep, locale: Locale) -> String {
    let Some(value) = value else { return ReadingsHead::Open.say(locale.language).to_string() };
    let decimals = (usize::from(step.decimals)..9)
        .find(|decimals| {
            let rounded: f64 = format!("{value:.decimals$}").parse().unwrap_or(value);
            (rounded - value).abs() <= 1e-12 * value.abs()
        })
        .unwrap_or(9);
    format!("{} {}", locale.number(value, decimals), symbol(step, locale))
}

fn symbol(step: &PlanStep, locale: Locale) -> &'static str {
    match step.unit {
        unit @ ("ohm" | "Mohm") => locale.ohm(unit),
        unit => unit,
    }
}

fn range(step: &PlanStep, locale: Locale) -> String {
    let show = |limit: f64| value(Some(limit), step, locale);
    match (step.lowest.map(show), step.highest.map(show)) {
        (Some(least), Some(most)) => {
            ReadingsWords::Between { least: &least, most: &most }.say(locale.language)
        }
        (Some(least), None) => ReadingsWords::AtLeast { least: &least }.say(locale.language),
        (None, Some(most)) => ReadingsWords::AtMost { most: &most }.say(locale.language),
        (None, None) => String::from("–"),
    }
}

/// For programs.
pub(super) fn document(plan: &WorkPlan, merged: &Merged, found: &Comparison<'_>) -> Value {
    let event = |event: &Event| {
        let details: BTreeMap<&str, &str> =
            event.details.iter().map(|(key, value)| (key.as_str(), value.as_str())).collect();
        let mut made = json!({
            "id": event.id, "phone": event.device, "sequence": event.sequence, "revision": event.revision,
            "by": event.by, "phone_clock_ms": event.at_ms, "kind": event.kind,
        });
        for (key, value) in [("place", &event.place), ("text", &event.text), ("step", &event.step)] {
            if let Some(value) = value {
                made[key] = json!(value);
            }
        }
        if !details.is_empty() {
            made["details"] = json!(details);
        }
        made
    };
    let events = |list: &[&Event]| list.iter().map(|one| event(one)).collect::<Vec<_>>();
    let step = |step: &PlanStep| {
        let mut made = json!({
            "step": step.key, "place": step.place, "what": plan.text_of(step), "unit": step.unit,
        });
        for (key, value) in [("expected", step.nominal), ("lowest", step.lowest), ("highest", step.highest)] {
            if let Some(value) = value {
                made[key] = json!(value);
            }
        }
        made
    };
    let judged = |one: &Judgement<'_>| {
        let mut made = step(one.step);
        match one.value {
            Some(value) => made["value"] = json!(value),
            None => made["open"] = json!(true),
        }
        made["judged"] = json!(match one.side {
            Side::In => "in",
            Side::Low => "low",
            Side::High => "high",
            Side::Unknown => "not-judged",
        });
        made["entry"] = event(one.event);
        made
    };
    let conflicts = found.conflicts.iter().map(|(at, list)| {
        let mut made = step(at);
        let each = list.iter().map(|one| {
            let mut entry = event(one);
            match one.value.flatten() {
                Some(value) => entry["value"] = json!(value),
                None => entry["open"] = json!(true),
            }
            entry
        });
        made["entries"] = each.collect();
        made
    });
    json!({
        "latchline_version": env!("CARGO_PKG_VERSION"),
        "site": plan.site,
        "revision": plan.revision,
        "input_sha256": plan.plan,
        "clean": found.is_clean(),
        "readings_asked": found.asked,
        "other_steps": found.others.0,
        "other_steps_done": found.others.1,
        "readings": found.judged.iter().map(judged).collect::<Vec<_>>(),
        "conflicts": conflicts.collect::<Vec<_>>(),
        "missing": found.missing.iter().map(|one| step(one)).collect::<Vec<_>>(),
        "snags": events(&found.snags),
        "not_entered": events(&found.not_entered),
        "exchanges": events(&found.exchanges),
        "handover": events(&found.handover),
        "not_of_this_plan": events(&found.not_of_this_plan),
        "clashes": merged.clashes.iter().map(|clash| json!({"kept": event(&clash.kept), "other": event(&clash.other)})).collect::<Vec<_>>(),
    })
}
