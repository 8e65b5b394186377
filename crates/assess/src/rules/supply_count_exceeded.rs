//! `supply-count-exceeded`

use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{Both, CodeDoc, Unit};
use latchline_network::{StageNode, StageSource};
use latchline_words::terms::TermSentence;
use std::collections::BTreeMap;

rule! {
    pub static SUPPLY_COUNT_EXCEEDED: "supply-count-exceeded", Error, check
}

/// How much of a supply's datasheet count is used up.
#[derive(Debug, Clone, PartialEq)]
pub struct SupplyCount {
    /// The supply's own stage.
    pub stage: usize,
    /// Sum of count over most allowed, by model; 1 is full.
    pub share: f64,
    /// Stations by model that have such a count.
    pub counts: BTreeMap<String, (usize, u32)>,
}

/// Shares of every supply. Stations behind a regenerating box count for the supply that feeds it.
pub fn supply_counts(context: &Context<'_>) -> Vec<SupplyCount> {
    let stages = &context.layout.stages;
    let mut root: Vec<usize> = (0..stages.len()).collect();
    for (index, stage) in stages.iter().enumerate() {
        for converter in &stage.converters {
            root[converter.stage] = root[index];
        }
    }
    let mut counts: BTreeMap<usize, BTreeMap<String, (usize, u32)>> = BTreeMap::new();
    for (index, stage) in stages.iter().enumerate() {
        if matches!(stage.source, StageSource::Supply(_)) {
            counts.entry(index).or_default();
        }
        for terminal in &stage.terminal {
            let StageNode::Station(station) = *terminal else { continue };
            let model = context.site.station_model(&context.site.stations[station]);
            if let Some(most) = &model.most_per_supply {
                let by_model = counts.entry(root[index]).or_default();
                by_model.entry(model.head.name.clone()).or_insert((0, most.value)).0 += 1;
            }
        }
    }
    counts
        .into_iter()
        .map(|(stage, counts)| SupplyCount { stage, share: share(counts.values().copied()), counts })
        .collect()
}

/// The rule of shares: the sum of count over most allowed.
pub fn share(counts: impl Iterator<Item = (usize, u32)>) -> f64 {
    counts.map(|(count, most)| count as f64 / f64::from(most.max(1))).sum()
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    for count in supply_counts(context) {
        // Sums of fractions such as 1/22 and 1/64: full is full to within rounding.
        if count.share <= 1.0 + 1e-9 {
            continue;
        }
        let stage = &context.layout.stages[count.stage];
        let models: Vec<Both> = count
            .counts
            .iter()
            .map(|(model, (count, most))| {
                let (count, most) = (*count, *most as usize);
                TermSentence::CountOfModel { count, most, model }.both()
            })
            .collect();
        let found = finding(doc, context.source_origin(stage.source))
            .about(stage.id.clone())
            .figures(count.share, 1.0, Unit::Ratio)
            .with("models", models);
        report.push(found);
    }
}

#[cfg(test)]
mod tests {
    use super::share;

    /// Common practice, no source: one 48 V supply carries 22 stations of a heavy kind or 64 of a
    /// light one, and mixes between.
    #[test]
    fn heavy_and_light_share_one_supply() {
        assert!(share([(22, 22)].into_iter()) <= 1.0 + 1e-9);
        assert!(share([(23, 22)].into_iter()) > 1.0 + 1e-9);
        assert!(share([(64, 64)].into_iter()) <= 1.0 + 1e-9);
        assert!(share([(11, 22), (32, 64)].into_iter()) <= 1.0 + 1e-9);
        assert!(share([(12, 22), (32, 64)].into_iter()) > 1.0 + 1e-9);
        assert!(share([(5, 22), (49, 64)].into_iter()) <= 1.0 + 1e-9);
        assert!(share([(5, 22), (50, 64)].into_iter()) > 1.0 + 1e-9);
    }
}
