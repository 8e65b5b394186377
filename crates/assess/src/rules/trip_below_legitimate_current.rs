//! `trip-below-legitimate-current`

use crate::physics_summary::port_id;
use crate::rule::{Judgement, finding, rule};
use crate::stage::WithVoltages;
use latchline_finding::{CodeDoc, Unit};
use latchline_site::catalogue::LimitKind;
use latchline_site::model::RunStart;
use latchline_words::terms::Term;
use std::collections::BTreeSet;

rule! {
    pub static TRIP_BELOW_LEGITIMATE_CURRENT: "trip-below-legitimate-current", Error, reads Voltages, check
}

fn check(doc: &CodeDoc, context: &WithVoltages<'_>, report: &mut Judgement) {
    let site = context.site;
    for nuisance in context.nuisance.iter() {
        let stage = &context.layout.stages[nuisance.stage];
        let (element, origin, model, kind, limit) = match nuisance.port {
            None => {
                let latchline_network::StageSource::Supply(index) = stage.source else { continue };
                let supply = &site.supplies[index];
                let model = site.supply_model(supply);
                let limit = model.limit_current.as_ref().unwrap_or(&model.rated_current);
                let kind = model.limit_kind.value;
                (supply.id.clone(), supply.origin.clone(), &model.head.name, kind, limit)
            }
            Some((box_index, port)) => {
                let model = site.box_model(&site.boxes[box_index]);
                let (Some(limit), Some(kind)) = (&model.port_current_limit, &model.port_limit_kind) else {
                    continue;
                };
                let id = port_id(site, box_index, port);
                let origin = site
                    .runs
                    .iter()
                    .find(|run| site.start_id(run.from) == id)
                    .map(|run| run.from_origin.clone())
                    .unwrap_or_default();
                (id, origin, &model.head.name, kind.value, limit)
            }
        };
        // One station alone cannot become fewer.
        let is_on_it = |run: &usize| match nuisance.port {
            Some((box_index, port)) => site.runs[*run].from == RunStart::Port { box_index, port },
            None => context.layout.run_start[*run].is_some_and(|start| start.stage == nuisance.stage),
        };
        let on_it = (0..site.runs.len()).filter(is_on_it);
        let stations: BTreeSet<usize> =
            on_it.flat_map(|run| context.topology.stations_beyond[run].iter().copied()).collect();
        let word = if kind == LimitKind::Hiccup { Term::Hiccups } else { Term::Trips };
        let mut found = finding(doc, origin)
            .about(element)
            .figures(nuisance.legitimate_a, nuisance.trip_a, Unit::Ampere)
            .with("model", model.as_str())
            .with("acts", word.both())
            .also_at("limit", limit.origin.clone())
            .graded(context.grade_of_stage(nuisance.stage));
        if stations.len() > 1 {
            found = found.with("fewer", Term::FewerStationsOnIt.both());
        }
        report.push(found);
    }
}
