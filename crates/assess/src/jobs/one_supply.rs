//! A supply that is replaced is bought once.
//!
//! Several findings may each ask for another supply in the same place: one for more current, one for a battery. Jobs that each replace it
//! would buy it twice, so the first of them takes the supply that does for all.

use super::offers::{JobChange, Offered, Offers, entered};
use latchline_finding::{Change, Edit, EditStep, Money};
use latchline_site::model::Site;
use std::collections::BTreeSet;

/// The supply whose model a change replaces.
pub fn replaced_supply(edit: &Edit) -> Option<&str> {
    edit.changes.iter().find_map(|(path, change)| match (&path[..], change) {
        ([EditStep::Key(table), EditStep::Key(supply), EditStep::Key(key)], Change::Set(_))
            if table == "supplies" && key == "model" =>
        {
            Some(supply.as_str())
        }
        _ => None,
    })
}

/// Whether nothing else mends a finding than another supply in this place, but for other stations than were chosen.
fn needs_another(offers: &Offers<'_>, finding: usize, supply: &str) -> bool {
    let mut changes =
        offers.mending(finding).filter(|offer| !offer.remedy.edit.changes_stations_of_dwellings()).peekable();
    changes.peek().is_some() && changes.all(|offer| replaced_supply(&offer.remedy.edit) == Some(supply))
}

/// Where a change replaces a supply, the one that does as much of what it is for and also mends what else asks for another supply in its place:
/// of those that mend most of that the cheapest. Else the change itself.
pub(super) fn for_all(
    site: &Site,
    offers: &Offers<'_>,
    findings: &[usize],
    change: JobChange,
    changed: &dyn Fn(&Edit) -> Option<Site>,
) -> JobChange {
    let Some(supply) = replaced_supply(&change.remedy.edit) else { return change };
    let mended: BTreeSet<usize> = change.clears.iter().copied().collect();
    let own: Vec<usize> = findings.iter().copied().filter(|finding| mended.contains(finding)).collect();
    let beyond = |offer: &Offered<'_>| {
        let others = offer.clears.iter().filter(|finding| !mended.contains(finding));
        others.filter(|finding| needs_another(offers, **finding, supply)).count()
    };
    let does = |offer: &&Offered<'_>| {
        replaced_supply(&offer.remedy.edit) == Some(supply)
            && !offer.remedy.edit.changes_stations_of_dwellings()
            && own.iter().all(|finding| offer.clears.contains(finding))
    };
    let cost = |offer: &Offered<'_>| (offer.remedy.cost.is_none(), offer.remedy.cost.map(Money::rounded));
    let best = offers.all.iter().filter(does).filter(|offer| beyond(offer) > 0).min_by(|a, b| {
        let by_mended = beyond(b).cmp(&beyond(a)).then(a.warns.cmp(&b.warns));
        by_mended.then(cost(a).cmp(&cost(b)))
    });
    let Some(best) = best else { return change };
    JobChange {
        carried_by: Some((best.finding, best.number)),
        remedy: best.remedy.clone(),
        clears: best.clears.clone(),
        enters: entered(site, best.remedy, changed),
    }
}
