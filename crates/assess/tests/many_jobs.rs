//! The jobs of very many findings.

use latchline_assess::jobs::jobs;
use latchline_finding::{Change, Code, Edit, EditStep, Finding, Origin, Remedy, Severity, Sources};
use latchline_site::{builtin_catalogue, resolve};

const IDLE: Code = Code("acceptance-without-match");

/// Each of 3,000 acceptances that match nothing is mended by its removal alone. Held pair by pair it would take minutes; and nobody is
/// sent to a dwelling for a line of a file, so no changed site is asked for.
#[test]
fn thousands_of_acceptances_are_jobs_of_their_own() {
    let mut sources = Sources::new();
    let (name, text) = builtin_catalogue();
    let catalogue = sources.add(name, text);
    let file = sources.add("site.toml", include_str!("../../latchline/src/demo/starter.toml"));
    let site = resolve(&sources, file, &[catalogue]).site.unwrap();
    let mut assessment = latchline_assess::assess(&site);
    assessment.findings.clear();
    for index in 0..3_000 {
        let element = format!("X-{index}");
        let mut found = Finding::new(IDLE, Severity::Warning, Origin::None).about(element.as_str());
        let path = vec![EditStep::from("accept"), EditStep::from(index)];
        found.remedies.push(Remedy {
            kind: "acceptance-removed",
            edit: Edit { changes: vec![(path, Change::Remove)] },
            clears: vec![(IDLE, Some(element.as_str().into()))],
            ..Remedy::default()
        });
        assessment.findings.push(found);
    }
    let found = jobs(&site, &assessment, &|_| panic!("nobody goes anywhere for an acceptance"));
    assert_eq!(found.jobs.len(), 3_000);
    for (index, job) in found.jobs.iter().enumerate() {
        let change = job.change.as_ref().unwrap();
        assert_eq!(
            (change.carried_by, &change.clears[..], &change.enters),
            (Some((index, 0)), &[index][..], &Some(Vec::new()))
        );
    }
}
