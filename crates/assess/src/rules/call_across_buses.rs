//! `call-across-buses`

use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, ElementId, Origin, Unit};
use latchline_site::model::Scope;

rule! {
    pub static CALL_ACROSS_BUSES: "call-across-buses", Error, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    for entrance in &site.entrances {
        let tells = entrance.alarm_inputs.iter().map(|input| &input.tells);
        let scopes: Vec<&Scope> = std::iter::once(&entrance.calls).chain(tells).collect();
        judge(doc, context, report, &entrance.id, entrance.station, &scopes, &entrance.origin);
    }
    for desk in &site.management {
        judge(doc, context, report, &desk.id, desk.station, &[&desk.calls], &desk.origin);
    }
}

fn judge(
    doc: &CodeDoc,
    context: &Context<'_>,
    report: &mut Judgement,
    caller: &ElementId,
    station: usize,
    scopes: &[&Scope],
    defined: &Origin,
) {
    let mut cut_off: Vec<ElementId> = Vec::new();
    let mut origin = None;
    for scope in scopes {
        for id in beyond_the_wires(context, station, scope) {
            origin.get_or_insert(if scope.origin == Origin::None { defined } else { &scope.origin });
            if !cut_off.contains(&id) {
                cut_off.push(id);
            }
        }
    }
    let Some(origin) = origin else { return };
    let mut found = finding(doc, origin.clone()).about(caller.clone());
    found.value = Some(latchline_finding::Figure { value: cut_off.len() as f64, unit: Unit::Count });
    report.push(found.with("called", cut_off));
}

/// Those of a scope to whom no wire leads.
fn beyond_the_wires(context: &Context<'_>, station: usize, scope: &Scope) -> Vec<ElementId> {
    let site = context.site;
    let bus = &context.topology.signal.station;
    let dwellings = scope.dwellings.iter().map(|index| &site.dwellings[*index]);
    let dwellings = dwellings
        .filter(|dwelling| !dwelling.stations.iter().any(|other| bus[*other] == bus[station]))
        .map(|dwelling| dwelling.id.clone());
    let desks = scope.management.iter().map(|index| &site.management[*index]);
    let desks = desks.filter(|desk| bus[desk.station] != bus[station]).map(|desk| desk.id.clone());
    dwellings.chain(desks).collect()
}
