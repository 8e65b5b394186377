//! `clad-aluminium`

use super::limit::grade;
use crate::rule::{Context, Judgement, finding, rule};
use latchline_circuit::conductor::COPPER_RESISTIVITY_OHM_MM2_PER_M;
use latchline_finding::{CodeDoc, ElementId, Figure, Origin, Provenance, Unit};
use latchline_site::catalogue::Material;
use latchline_words::terms::Term;
use std::collections::BTreeMap;

rule! {
    pub static CLAD_ALUMINIUM: "clad-aluminium", Warning, check
}

/// The material's resistance over that of copper, from the highest resistivities of ASTM B566, and of
/// hard-drawn aluminium (IEC 60889).
pub(super) fn resistance_ratio(material: Material) -> f64 {
    match material {
        Material::Copper => 1.0,
        Material::CladAluminium10 => 0.02743 / COPPER_RESISTIVITY_OHM_MM2_PER_M,
        Material::CladAluminium15 => 0.02676 / COPPER_RESISTIVITY_OHM_MM2_PER_M,
        Material::Aluminium => 0.028264 / COPPER_RESISTIVITY_OHM_MM2_PER_M,
    }
}

fn word(material: Material) -> Term {
    match material {
        Material::Copper => Term::Copper,
        Material::CladAluminium10 => Term::CladAluminium10,
        Material::CladAluminium15 => Term::CladAluminium15,
        Material::Aluminium => Term::Aluminium,
    }
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    // One finding a cable, at the first place that uses it.
    let mut users: BTreeMap<&str, (Origin, Vec<ElementId>)> = BTreeMap::new();
    let runs = site.runs.iter().map(|run| (&run.cable, &run.id));
    let locks = site.entrances.iter().flat_map(|entrance| {
        let cables = entrance.locks.iter().filter_map(|lock| lock.cable.as_ref());
        cables.map(move |cable| (cable, &entrance.id))
    });
    for (cable, user) in runs.chain(locks) {
        if site.catalogue.cables[&cable.value].material.value == Material::Copper {
            continue;
        }
        let (_, elements) = users.entry(&cable.value).or_insert((cable.origin.clone(), Vec::new()));
        if elements.last() != Some(user) {
            elements.push(user.clone());
        }
    }
    for (name, (origin, elements)) in users {
        let cable = &site.catalogue.cables[name];
        let material = cable.material.value;
        let mut found = finding(doc, origin)
            .about(elements[0].clone())
            .with("cable", name)
            .with("material", word(material).both())
            .with("elements", elements)
            .also_at("material", cable.material.origin.clone());
        found.value = Some(Figure::new(resistance_ratio(material), Unit::Ratio));
        if cable.material.provenance == Provenance::Assumed {
            found = found.graded(grade(name, "material", &cable.material));
        }
        report.push(found);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ASTM B566 by way of conductivity: 62.9 % and 64.4 % IACS for 10 % and 15 % of copper.
    #[test]
    fn clad_aluminium_has_the_resistance_that_the_standard_allows() {
        assert!((1.0 / resistance_ratio(Material::CladAluminium10) - 0.629).abs() < 5e-4);
        assert!((1.0 / resistance_ratio(Material::CladAluminium15) - 0.644).abs() < 5e-4);
        // Aluminium has 61 % IACS (handbook value, from memory).
        assert!((1.0 / resistance_ratio(Material::Aluminium) - 0.61).abs() < 5e-4);
    }
}
