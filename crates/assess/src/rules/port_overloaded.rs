//! `port-overloaded`

use crate::rule::{Context, Judgement, finding, rule};
use crate::stage::WithVoltages;
use latchline_finding::{CodeDoc, Unit};
use latchline_site::model::RunStart;
use latchline_words::terms::Term;

rule! {
    pub static PORT_OVERLOADED: "port-overloaded", Error, reads Voltages, check
}

/// Current limit of the port from which a run starts, in amperes.
pub fn port_limit(context: &Context<'_>, run: usize) -> Option<f64> {
    let RunStart::Port { box_index, .. } = context.site.runs[run].from else { return None };
    let model = context.site.box_model(&context.site.boxes[box_index]);
    model.port_current_limit.as_ref().map(|limit| limit.value.as_amps())
}

fn check(doc: &CodeDoc, context: &WithVoltages<'_>, report: &mut Judgement) {
    for (index, run) in context.site.runs.iter().enumerate() {
        let RunStart::Port { box_index, .. } = run.from else { continue };
        let model = context.site.box_model(&context.site.boxes[box_index]);
        let Some(limit) = &model.port_current_limit else { continue };
        let Some(current) = &context.worst.run_current_held[index] else { continue };
        let Some(current_a) = current.current_a else { continue };
        let limit_a = limit.value.as_amps();
        if current_a > limit_a {
            let stage = context.layout.run_start[index].map_or(0, |at| at.stage);
            let found = finding(doc, run.from_origin.clone())
                .about(context.site.start_id(run.from))
                .in_state(context.state(current.phase, &current.set))
                .figures(current_a, limit_a, Unit::Ampere)
                .with("run", &run.id)
                .with("model", model.head.name.as_str())
                .with("stations", context.topology.stations_beyond[index].len())
                .also_at("limit", limit.origin.clone())
                .graded(context.grade_of_stage(stage));
            // What cannot be done is not proposed.
            let stations = context.topology.stations_beyond[index].len();
            let way_out = match (stations, context.site.free_ports(box_index).next().is_some()) {
                (..=1, _) => Term::StationAloneOnPort,
                (_, true) => Term::StationsToAFreePort,
                (_, false) => Term::StationsToAnotherBox,
            };
            report.push(found.with("way_out", way_out.both()));
        }
    }
}
