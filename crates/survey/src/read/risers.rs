//! Ways from floor to floor that look like a slip: a length far from those of the others, floors in another order.

use super::Reader;
use crate::fields::Row;
use crate::model::{Building, Place};
use crate::problem::ProblemKind;

/// A length that is so many times the usual one, or so small a part of it, is told (common practice, no source).
const UNLIKE: f64 = 5.0;
/// Others of its building that a way is held against at least.
const FEWEST_OTHERS: usize = 2;

/// A way with its row.
pub(super) struct Written<'f, 's> {
    pub row: Row<'f, 's>,
    pub from: usize,
    pub to: usize,
    pub length_m: f64,
}

/// A way from floor to floor of one building.
struct Climb {
    way: usize,
    building: usize,
    floor_m: f64,
}

impl Reader<'_> {
    pub(super) fn risers(&mut self, ways: &[Written<'_, '_>], places: &[Place], buildings: &[Building]) {
        let floor = |place: usize| -> Option<(usize, usize)> {
            let place = &places[place];
            let floors = &buildings[place.building?].floors;
            let at = floors.iter().position(|floor| Some(floor) == place.floor.as_ref())?;
            Some((place.building?, at))
        };
        let climb = |(way, written): (usize, &Written<'_, '_>)| {
            let ((building, from), (other, to)) = (floor(written.from)?, floor(written.to)?);
            let floors = from.abs_diff(to);
            (building == other && floors > 0).then(|| Climb {
                way,
                building,
                floor_m: written.length_m / floors as f64,
            })
        };
        let climbs: Vec<Climb> = ways.iter().enumerate().filter_map(climb).collect();
        let name = |place: usize| places[place].name.value.clone();
        for one in &climbs {
            let mut others: Vec<f64> = climbs
                .iter()
                .filter(|other| other.way != one.way && other.building == one.building)
                .map(|other| other.floor_m)
                .collect();
            others.sort_by(f64::total_cmp);
            let Some(&usual_m) = others.get(others.len() / 2).filter(|_| others.len() >= FEWEST_OTHERS)
            else {
                continue;
            };
            let is_like = one.floor_m < usual_m * UNLIKE && one.floor_m * UNLIKE > usual_m;
            // A length of nothing is told as that.
            if is_like || one.floor_m < 1e-3 || usual_m < 1e-3 {
                continue;
            }
            let Written { row, from, to, .. } = &ways[one.way];
            let ends = Box::new([name(*from), name(*to)]);
            let kind = ProblemKind::RouteUnlikeOthers { ends, floor_m: one.floor_m, usual_m };
            row.wrong("Length", kind, self.problems);
        }
        let is_joined = |one: usize, other: usize| {
            ways.iter().any(|way| (way.from, way.to) == (one, other) || (way.to, way.from) == (one, other))
        };
        for one in &climbs {
            let Written { row, from, to, .. } = &ways[one.way];
            // From either end: where the way goes on behind its beginning, its end is the far one.
            for (near, far) in [(*from, *to), (*to, *from)] {
                let (Some((building, low)), Some((_, high))) = (floor(near), floor(far)) else { continue };
                let is_between = |place: &usize| {
                    let here = floor(*place).filter(|(other, _)| *other == building);
                    here.is_some_and(|(_, at)| low.min(high) < at && at < low.max(high))
                        && places[*place].core == places[far].core
                        && is_joined(*place, far)
                        && !is_joined(*place, near)
                };
                let goes_on = |place: &usize| {
                    let here = floor(*place).filter(|(other, _)| *other == building);
                    let is_beyond = here.is_some_and(|(_, at)| if low < high { at < low } else { at > low });
                    is_beyond && is_joined(*place, near)
                };
                let Some(between) = (0..places.len()).find(is_between) else { continue };
                if (0..places.len()).any(|place| goes_on(&place)) {
                    let places = Box::new([name(near), name(far), name(between)]);
                    row.wrong("To", ProblemKind::FloorsOutOfOrder { places }, self.problems);
                    break;
                }
            }
        }
    }
}
