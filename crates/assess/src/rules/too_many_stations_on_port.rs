//! `too-many-stations-on-port`

use super::limit::grade;
use crate::rule::{Context, Report, finding, rule};
use latchline_finding::{CodeDoc, Unit};

rule! {
    /// # What it checks
    /// How many stations hang on each output of a supply and each port of a distributor, with branch
    /// boxes and everything beyond up to the next distributor, against the family's
    /// `stations_per_port`. A family that states no such limit is not held to one.
    ///
    /// # Why it matters
    /// Every station loads the pair for signals, whether it is in use or not. The family's count is what its
    /// maker has tried; voltage and current are judged beside it and can allow more or less.
    ///
    /// # Example
    /// 17 stations on A-D1.2; the family allows 16.
    ///
    /// # What to do
    /// Move stations to a free port, or add a distributor.
    pub static TOO_MANY_STATIONS_ON_PORT: "too-many-stations-on-port", Error,
        "More stations on one port than the family allows", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    let site = context.site;
    let family = site.family();
    let Some(limit) = &family.stations_per_port else { return };
    for tree in &context.topology.port_trees {
        let stations = tree.stations(0..tree.nodes.len()).count();
        if stations > limit.value as usize {
            let run = &site.runs[tree.run];
            let found = finding(doc, run.from_origin.clone())
                .about(tree.id(site))
                .figures(stations as f64, f64::from(limit.value), Unit::Count)
                .with("run", &run.id)
                .with("family", family.head.name.as_str())
                .also_at("limit", limit.origin.clone())
                .graded(grade(&family.head.name, "stations_per_port", limit));
            report.push(found);
        }
    }
}
