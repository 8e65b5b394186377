//! The change of a job is made from the page, whether a finding carries it or not.
#![allow(clippy::unwrap_used, clippy::disallowed_methods, reason = "tests may fail")]

use crate::common::{Served, status};
use std::time::{Duration, Instant};

/// The marks by which the page names its first job, once its change is known.
fn first_job(served: &Served) -> String {
    let begun = Instant::now();
    loop {
        let page = served.get("/sites/house");
        if let Some(remedy) = page.find("data-remedy=") {
            let at = remedy + page[remedy..].find("data-accept=").unwrap();
            let end = at + page[at..].find('>').unwrap();
            return page[at..end].to_string();
        }
        assert!(begun.elapsed() < Duration::from_secs(60), "{page}");
        std::thread::sleep(Duration::from_millis(50));
    }
}

/// The thin chain beside mains: a thicker cable that may lie there does both jobs.
#[test]
fn a_change_that_does_two_jobs_is_made_from_the_page() {
    let text = include_str!("../../../checks/by_hand/cable-too-thin.toml")
        .replace("\nfar = {", "\nfar = { beside_mains = true,");
    let served = Served::with(&text);
    let marks = first_job(&served);
    let of = |name: &str| {
        let begin = marks.find(name).unwrap() + name.len() + 2;
        marks[begin..].split('"').next().unwrap().to_string()
    };
    let change = format!(
        "{{\"kind\":\"job\",\"code\":\"{}\",\"element\":\"{}\"}}",
        of("data-accept"),
        of("data-element")
    );
    let base = |page: &str| -> i64 {
        page.split("data-revision=\"").nth(1).and_then(|rest| rest.split('"').next()?.parse().ok()).unwrap()
    };
    let answer = served.edit("job-1", base(&served.get("/sites/house")), &change);
    assert_eq!(status(&answer), 200, "{answer}");
    assert!(served.get("/sites/house/text").contains("flex-0.75"));
    // A job that is not there changes nothing.
    let answer =
        served.edit("job-2", 2, "{\"kind\":\"job\",\"code\":\"voltage-too-low\",\"element\":\"nobody\"}");
    assert_eq!(status(&answer), 404, "{answer}");
}
