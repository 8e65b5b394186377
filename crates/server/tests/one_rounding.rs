//! What the office page shows of an element is the same number, of the same rounding, as every other output: each figure of the assessment by the one
//! formatter of its quantity.
#![allow(clippy::unwrap_used, clippy::disallowed_methods, reason = "tests may fail")]

use crate::common::{Served, status};
use latchline_assess::assess;
use latchline_finding::{Language, Severity, Sources};
use latchline_site::bill::Bill;
use latchline_site::{builtin_catalogue, resolve};
use latchline_words::{codes, figures};
use std::time::{Duration, Instant};

const SITES: [(&str, &str); 4] = [
    ("starter", include_str!("../../latchline/src/demo/starter.toml")),
    ("demo", include_str!("../../latchline/src/demo/site.toml")),
    ("designed", include_str!("../../latchline/src/demo/designed.toml")),
    ("faulty", include_str!("../../latchline/src/demo/faulty.toml")),
];

/// A page as one line of words, its marks taken out and its entities read.
fn words(answer: &str) -> String {
    let body = answer.split("\r\n\r\n").nth(1).unwrap_or_default();
    let mut text = String::new();
    let mut is_mark = false;
    for sign in body.chars() {
        match sign {
            '<' => is_mark = true,
            '>' => {
                is_mark = false;
                text.push(' ');
            }
            _ if !is_mark => text.push(sign),
            _ => {}
        }
    }
    let text = text.replace("&quot;", "\"").replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&");
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn path_of(id: &str) -> String {
    format!("/sites/house/element?id={}", id.replace(':', "%3A"))
}

/// The page of an element, once its figures are in.
fn element(served: &Served, id: &str) -> String {
    let path = path_of(id);
    let begun = Instant::now();
    loop {
        let answer = served.get(&path);
        if status(&answer) == 200 {
            return words(&answer);
        }
        assert!(begun.elapsed() < Duration::from_secs(60), "{id}: {answer}");
        std::thread::sleep(Duration::from_millis(20));
    }
}

#[test]
fn the_office_page_says_the_same_figures() {
    let english = Language::English;
    for (name, text) in SITES {
        let mut sources = Sources::new();
        let (title, catalogue) = builtin_catalogue();
        let catalogue = sources.add(title, catalogue);
        let file = sources.add("site.toml", text);
        let site = resolve(&sources, file, &[catalogue]).site.unwrap();
        let assessment = assess(&site);
        let served = Served::with(text);
        let mut compared = 0;
        // Money has two decimals, always, a half of a hundredth upwards.
        let price = figures::money(Bill::of(&site).material(), english);
        let begun = Instant::now();
        loop {
            let page = words(&served.get("/sites/house"));
            if page.contains(&format!(" {price} ")) {
                break;
            }
            assert!(begun.elapsed() < Duration::from_secs(60), "{name}: {price}, {page}");
            std::thread::sleep(Duration::from_millis(50));
        }
        for device in &assessment.devices {
            let page = element(&served, device.id.as_str());
            if let Some(voltage_v) = device.worst.adverse_v {
                let shown = figures::volts(voltage_v, english);
                assert!(page.contains(&format!(" {shown} ")), "{name}, {}: {shown} V, {page}", device.id);
            }
            let loop_ohm = figures::ohms(device.loop_resistance_ohm, english);
            assert!(
                page.contains(&format!(" {loop_ohm} ohm")),
                "{name}, {}: {loop_ohm} ohm, {page}",
                device.id
            );
            // A length without zeros at its end.
            let length = figures::metres(device.distance_m, english);
            let length = length.trim_end_matches('0').trim_end_matches('.');
            assert!(page.contains(&format!(" {length} m ")), "{name}, {}: {length} m, {page}", device.id);
            compared += 1;
        }
        let currents = assessment.sources.iter().map(|source| (&source.id, source.current.current_a));
        let currents = currents.chain(assessment.runs.iter().map(|run| (&run.id, run.current.current_a)));
        for (id, current_a) in currents {
            let page = element(&served, id.as_str());
            let Some(current_a) = current_a else { continue };
            let shown = figures::amperes(current_a, english);
            assert!(page.contains(&format!(" {shown} A")), "{name}, {id}: {shown} A, {page}");
            compared += 1;
        }
        // Decibels and all else that findings say stand in their messages.
        for finding in assessment.findings.iter().filter(|one| one.severity == Severity::Error) {
            let Some(id) = &finding.element else { continue };
            if status(&served.get(&path_of(id.as_str()))) == 404 {
                continue;
            }
            let message = codes::wording(finding, english).message;
            let message = message.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase();
            // Stages come in one after the other.
            let begun = Instant::now();
            while !element(&served, id.as_str()).to_lowercase().contains(&message) {
                assert!(begun.elapsed() < Duration::from_secs(60), "{name}, {id}: {message}");
                std::thread::sleep(Duration::from_millis(50));
            }
            compared += 1;
        }
        assert!(compared > 10, "{name}: {compared} figures were compared");
    }
}
