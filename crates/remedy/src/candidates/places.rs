//! Free names and ports, places as the user writes them, and who can be called.

use crate::bench::Bench;
use crate::candidate::{Candidate, quoted, quoted_list};
use latchline_assess::rules::codes;
use latchline_finding::Edit;
use latchline_site::model::{EntranceRole, Place, Site};
use toml::de::DeValue;

/// A name in a table that is not taken: the stem, then with a number.
pub(super) fn free_name(bench: &Bench<'_>, table: &str, stem: &str) -> String {
    let taken = |name: &str| {
        has_key(bench, table, name) || bench.site.boxes.iter().any(|one| one.id.as_str() == name)
    };
    let plain = if table == "runs" { format!("{stem}b") } else { stem.to_string() };
    std::iter::once(plain)
        .chain((2..).map(|number| format!("{stem}{number}")))
        .find(|name| !taken(name))
        .unwrap_or_else(|| stem.to_string())
}

/// The first port of a box from which no run starts, as the user writes it.
pub(super) fn free_port(site: &Site, box_index: usize) -> Option<String> {
    free_ports(site, box_index).into_iter().next()
}

/// The ports of a box from which no run starts.
pub(super) fn free_ports(site: &Site, box_index: usize) -> Vec<String> {
    site.free_ports(box_index).map(|port| format!("{}.{port}", site.boxes[box_index].id)).collect()
}

/// The boxes at a place, if it is in a building.
pub(super) fn boxes_at<'s>(site: &'s Site, place: &'s Place) -> impl Iterator<Item = usize> + 's {
    (0..site.boxes.len()).filter(|index| place.building.is_some() && site.boxes[*index].place == *place)
}

/// Lets the main entrance of a dwelling's building call it.
pub(super) fn widen_scope(bench: &Bench<'_>, dwelling: &str) -> Vec<Candidate> {
    let site = bench.site;
    let Some(found) = site.dwellings.iter().find(|one| one.id.as_str() == dwelling) else {
        return Vec::new();
    };
    let mut entrances: Vec<_> = site.entrances.iter().collect();
    entrances.sort_by_key(|entrance| {
        let elsewhere = entrance.place.building != found.place.building;
        (elsewhere, entrance.role.value != EntranceRole::Main)
    });
    // Whom nobody calls is one mistake however many it leaves out: all of the building together, else this one alone.
    let uncalled =
        bench.assessment.findings.iter().filter(|one| one.code == codes::DWELLING_WITHOUT_ENTRANCE);
    let uncalled = uncalled
        .filter_map(|one| site.dwellings.iter().find(|dwelling| one.element.as_ref() == Some(&dwelling.id)));
    let together: Vec<&str> = uncalled
        .filter(|one| one.place.building == found.place.building)
        .map(|one| one.id.as_str())
        .collect();
    let groups = if together.len() > 1 { vec![together, vec![dwelling]] } else { vec![vec![dwelling]] };
    let entrances: Vec<_> = entrances.into_iter().take(2).collect();
    let tried = groups.iter().flat_map(|group| entrances.iter().map(move |entrance| (group, *entrance)));
    tried
        .filter_map(|(group, entrance)| {
            let id = entrance.id.as_str();
            bench.written(&["entrances", id])?;
            let mut scope: Vec<String> = match bench.written(&["entrances", id, "calls"]) {
                Some(DeValue::Array(list)) => {
                    list.iter().filter_map(|item| item.get_ref().as_str().map(str::to_string)).collect()
                }
                Some(DeValue::String(one)) => vec![one.to_string()],
                _ => Vec::new(),
            };
            scope.extend(group.iter().map(|one| (*one).to_string()));
            let list = quoted_list(scope.iter().map(String::as_str));
            Some(Candidate::new("wider-scope", Edit::set(&["entrances", id, "calls"], list)))
        })
        .collect()
}

/// Replaces a model, where the user names it or where it comes from a default.
pub(super) fn set_model(bench: &Bench<'_>, element: &str, model: &str) -> Option<Edit> {
    let site = bench.site;
    let value = quoted(model);
    if site.dwellings.iter().any(|one| one.id.as_str() == element) {
        return Some(Edit::set(&["dwellings", element, "station"], value));
    }
    if let Some((dwelling, number)) = element.rsplit_once(':') {
        let number: usize = number.parse().ok()?;
        let found = site.dwellings.iter().find(|one| one.id.as_str() == dwelling)?;
        let models: Vec<&str> = found.stations[1..]
            .iter()
            .enumerate()
            .map(|(index, station)| {
                let own = site.stations[*station].model.value.as_str();
                if index + 2 == number { model } else { own }
            })
            .collect();
        return Some(Edit::set(&["dwellings", dwelling, "extensions"], quoted_list(models)));
    }
    let tables = [
        ("entrances", "station", site.entrances.iter().any(|one| one.id.as_str() == element)),
        ("management", "model", site.management.iter().any(|one| one.id.as_str() == element)),
        ("supplies", "model", site.supplies.iter().any(|one| one.id.as_str() == element)),
        ("distributors", "model", has_key(bench, "distributors", element)),
        ("branch-boxes", "model", has_key(bench, "branch-boxes", element)),
    ];
    tables
        .into_iter()
        .find(|(_, _, is_there)| *is_there)
        .map(|(table, key, _)| Edit::set(&[table, element, key], value))
}

fn has_key(bench: &Bench<'_>, table: &str, name: &str) -> bool {
    bench.written(&[table, name]).is_some()
}
