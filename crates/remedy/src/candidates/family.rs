//! Parts of the site's family in place of those of another.

use super::places::set_model;
use super::prices::by_price;
use crate::bench::Bench;
use crate::candidate::{Candidate, quoted};
use latchline_finding::{Argument, Edit, Finding};
use latchline_site::catalogue::PartHead;
use toml::de::DeValue;

/// A part of the site's family that does the same, in place of one of another family.
pub(super) fn part_of_the_family(bench: &Bench<'_>, element: &str) -> Vec<Candidate> {
    let parts = alike_in_the_family(bench, element).into_iter();
    parts
        .filter_map(|part| Some(Candidate::new("part-of-the-family", set_model(bench, element, part)?)))
        .collect()
}

/// The same for every part of a model that the finding is about: forty stations of a wrong model are one mistake. Where the model is that of
/// `[site]`, the line there; else each where it stands.
pub(super) fn all_of_a_model(bench: &Bench<'_>, finding: &Finding) -> Vec<Candidate> {
    let Some(Argument::Elements(devices)) = finding.argument("devices") else { return Vec::new() };
    let (Some(first), Some(Argument::Text(model))) = (devices.first(), finding.argument("model")) else {
        return Vec::new();
    };
    let of_the_site =
        |key: &str| bench.written(&["site", key]).and_then(DeValue::as_str) == Some(model.as_str());
    let key = ["indoor_station", "door_station"].into_iter().find(|key| of_the_site(key));
    let mut list = Vec::new();
    for part in alike_in_the_family(bench, first.as_str()) {
        list.extend(key.map(|key| Edit::set(&["site", key], quoted(part))));
        let each = devices.iter().map(|device| set_model(bench, device.as_str(), part));
        list.extend(
            each.collect::<Option<Vec<Edit>>>().map(|all| all.into_iter().fold(Edit::default(), Edit::then)),
        );
    }
    list.into_iter().map(|edit| Candidate::new("part-of-the-family", edit)).collect()
}

/// Names of the parts of the site's family that do the same as one that is there, cheapest first.
fn alike_in_the_family<'b>(bench: &'b Bench<'_>, element: &str) -> Vec<&'b str> {
    let site = bench.site;
    let family = &site.family.value;
    let mut parts: Vec<&PartHead> = Vec::new();
    if let Some(station) = site.stations.iter().find(|station| station.id.as_str() == element) {
        let own = site.station_model(station);
        for model in site.catalogue.stations.values() {
            if model.family.value == *family && model.kind == own.kind && model.media == own.media {
                parts.push(&model.head);
            }
        }
    } else if let Some(found) = site.boxes.iter().find(|one| one.id.as_str() == element) {
        let own = site.box_model(found);
        for model in site.catalogue.boxes.values() {
            let same = model.role == own.role && model.ports.value >= own.ports.value;
            if model.family.value == *family && same {
                parts.push(&model.head);
            }
        }
    } else if let Some(found) = site.supplies.iter().find(|one| one.id.as_str() == element) {
        let own = site.supply_model(found);
        for model in site.catalogue.supplies.values() {
            let same = model.rated_current.value.as_amps() >= own.rated_current.value.as_amps();
            if model.family.value == *family && same {
                parts.push(&model.head);
            }
        }
    }
    parts.sort_by(|a, b| by_price(a, b));
    parts.into_iter().take(4).map(|part| part.name.as_str()).collect()
}
