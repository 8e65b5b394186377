//! `call-across-buses`

use crate::rule::{Context, Report, finding, rule};
use latchline_finding::{CodeDoc, ElementId, Origin, Unit};
use latchline_site::model::Scope;

rule! {
    /// # What it checks
    /// That the wiring joins every door and management station to all whom it calls. Two supplies with
    /// separate runs make two buses; between the input and the ports of an isolating box only power
    /// passes, its signals come over its link.
    ///
    /// # Why it matters
    /// Everything has power and every station works on its own bus, but the call never arrives.
    ///
    /// # Example
    /// The gate calls everyone; block B has its own supply, and the link of its distributor is not wired.
    ///
    /// # What to do
    /// Join the buses in the way the family provides, usually over the link of an isolating box, or
    /// correct the `calls`.
    pub static CALL_ACROSS_BUSES: "call-across-buses", Error,
        "No wire leads from a door station to those whom it calls", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    let site = context.site;
    for entrance in &site.entrances {
        judge(doc, context, report, &entrance.id, entrance.station, &entrance.calls, &entrance.origin);
    }
    for desk in &site.management {
        judge(doc, context, report, &desk.id, desk.station, &desk.calls, &desk.origin);
    }
}

fn judge(
    doc: &CodeDoc,
    context: &Context<'_>,
    report: &mut Report,
    caller: &ElementId,
    station: usize,
    calls: &Scope,
    defined: &Origin,
) {
    let site = context.site;
    let bus = &context.topology.signal.station;
    let dwellings = calls.dwellings.iter().map(|index| &site.dwellings[*index]);
    let dwellings = dwellings
        .filter(|dwelling| !dwelling.stations.iter().any(|other| bus[*other] == bus[station]))
        .map(|dwelling| dwelling.id.clone());
    let desks = calls.management.iter().map(|index| &site.management[*index]);
    let desks = desks.filter(|desk| bus[desk.station] != bus[station]).map(|desk| desk.id.clone());
    let cut_off: Vec<ElementId> = dwellings.chain(desks).collect();
    if cut_off.is_empty() {
        return;
    }
    let origin = if calls.origin == Origin::None { defined } else { &calls.origin };
    let mut found = finding(doc, origin.clone()).about(caller.clone());
    found.value = Some(latchline_finding::Figure { value: cut_off.len() as f64, unit: Unit::Count });
    report.push(found.with("called", cut_off));
}
