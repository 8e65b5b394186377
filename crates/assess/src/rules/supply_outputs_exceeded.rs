//! `supply-outputs-exceeded`

use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, ElementId, Unit};
use latchline_words::missing::Missing;

rule! {
    pub static SUPPLY_OUTPUTS_EXCEEDED: "supply-outputs-exceeded", Error, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    for (index, supply) in site.supplies.iter().enumerate() {
        let runs: Vec<_> = site.runs_from_supply(index).collect();
        if runs.len() < 2 {
            continue;
        }
        let model = site.supply_model(supply);
        let (Some(outputs), Some(most)) = (&model.outputs, model.most_runs()) else {
            report.not_judged(doc.code, supply.id.clone(), Missing::key(&model.head.name, "outputs"));
            continue;
        };
        if runs.len() <= most {
            continue;
        }
        let beyond: Vec<ElementId> = runs[most..].iter().map(|run| run.id.clone()).collect();
        let found = finding(doc, runs[most].origin.clone())
            .about(supply.id.clone())
            .figures(runs.len() as f64, most as f64, Unit::Count)
            .with("model", model.head.name.as_str())
            .with("outputs", outputs.value as usize)
            .with("runs", beyond)
            .also_at("limit", outputs.origin.clone())
            .graded(super::limit::grade(&model.head.name, "outputs", outputs));
        report.push(found);
    }
}
