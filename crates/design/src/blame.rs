//! Which limit is to blame where no design exists, and what each limit costs where one does.

use crate::electric::Sweep;
use crate::instance::Instance;
use crate::limits::Limits;
use crate::money::{Amount, money};
use crate::obstacle::Obstacle;
use crate::outcome::Binding;
use crate::planning::{plan, relaxed};
use crate::runs::{best_head, best_output, chain, hangs_on_outputs};
use latchline_finding::{Figure, Unit};
use latchline_words::design::{LimitWords, ObstacleWords};

/// A limit with its value in words, and the limits without it.
fn loosened(limits: &Limits) -> Vec<(LimitWords, Limits)> {
    let mut list = Vec::new();
    if limits.margin_v > 0.0 {
        let words = LimitWords::Margin { volts: Figure::new(limits.margin_v, Unit::Volt) };
        list.push((words, Limits { margin_v: 0.0, ..*limits }));
    }
    if limits.spare > 0 {
        let words = LimitWords::SparePorts { ports: limits.spare };
        list.push((words, Limits { spare: 0, ..*limits }));
    }
    if limits.dwellings < usize::MAX / 2 {
        let words = LimitWords::Dwellings { dwellings: limits.dwellings };
        list.push((words, Limits { dwellings: usize::MAX / 2, ..*limits }));
    }
    if limits.stations < usize::MAX / 2 {
        let words = LimitWords::Stations { stations: limits.stations };
        list.push((words, Limits { stations: usize::MAX / 2, ..*limits }));
    }
    if limits.longest_dm.min(limits.total_dm) < u64::MAX / 4 {
        let metres = limits.longest_dm.min(limits.total_dm) / 10;
        let words = LimitWords::Length { metres: usize::try_from(metres).unwrap_or(usize::MAX) };
        list.push((words, Limits { longest_dm: u64::MAX / 2, total_dm: u64::MAX / 2, ..*limits }));
    }
    list
}

fn bound(instance: &mut Instance<'_>, root: usize, order: &[usize], limits: Limits) -> Option<Amount> {
    let kept = std::mem::replace(&mut instance.limits, limits);
    let found = plan(instance, order, root, relaxed(0), None).map(|plan| plan.cost);
    instance.limits = kept;
    found
}

/// Why there is no plan at all.
pub fn blame(instance: &Instance<'_>, root: usize, order: &[usize]) -> Obstacle {
    let mut sweep = Sweep::default();
    for &item in order {
        let from_output = |sweep: &mut Sweep| {
            let head = best_output(instance);
            let mut fed =
                |place: &usize| chain(instance, *place, &head, &[item], 0, sweep, &|_| false).is_some();
            hangs_on_outputs(instance) && instance.mains.iter().any(&mut fed)
        };
        if from_output(&mut sweep) {
            continue;
        }
        let mut is_fed = |limit: &dyn Fn(f64) -> f64| {
            instance.distributors.iter().any(|kind| {
                let mut head = best_head(instance, kind, 0.0);
                head.limit_a = limit(head.limit_a);
                instance
                    .box_places
                    .iter()
                    .any(|place| chain(instance, *place, &head, &[item], 0, &mut sweep, &|_| false).is_some())
            })
        };
        if !is_fed(&|limit_a| limit_a) {
            // The way is not to blame where a port without limit would do.
            if is_fed(&|_| f64::INFINITY) {
                let limits = instance.distributors.iter().map(|kind| best_head(instance, kind, 0.0).limit_a);
                return Obstacle::PortCurrent {
                    item: instance.items[item].name.clone(),
                    largest_a: limits.fold(0.0, f64::max),
                };
            }
            let at = instance.items[item].place;
            let length = |place: &usize| instance.way(*place, at).map_or(u64::MAX, |way| way.length_mm);
            let nearest = instance.box_places.iter().copied().min_by_key(length);
            let length_mm = nearest.map_or(0, |place| length(&place)) + instance.items[item].drop_mm;
            return Obstacle::OutOfReach {
                item: instance.items[item].name.clone(),
                nearest: nearest
                    .map_or(String::new(), |place| instance.survey.places[place].name.value.clone()),
                length_m: f64::from(instance.section_dm(length_mm, 0)) / 10.0,
            };
        }
    }
    let mut loose = instance.clone();
    for (words, limits) in loosened(&instance.limits) {
        if bound(&mut loose, root, order, limits).is_some() {
            let relaxation = ObstacleWords::WithoutLimit { limit: &words.both() }.both();
            return Obstacle::Together { relaxation: Some(relaxation) };
        }
    }
    if instance.has_locks() {
        let mut open = instance.clone();
        open.unlock();
        if plan(&open, order, root, relaxed(0), None).is_some() {
            return Obstacle::Together { relaxation: Some(ObstacleWords::WithoutLocked.both()) };
        }
    }
    let mut widest = instance.clone();
    for supply in &mut widest.supplies {
        supply.rated_a = f64::INFINITY;
    }
    for item in &mut widest.items {
        item.loads.iter_mut().for_each(|load| load.share = 0.0);
    }
    if plan(&widest, order, root, relaxed(0), None).is_some() {
        let words = if instance.isolator.is_none() {
            ObstacleWords::LargerSupply
        } else {
            ObstacleWords::LargerSupplies
        };
        return Obstacle::Together { relaxation: Some(words.both()) };
    }
    Obstacle::Together { relaxation: None }
}

/// By how much the bound falls without each limit; those that cost nothing are left out.
pub fn prices(instance: &Instance<'_>, root: usize, order: &[usize]) -> Vec<Binding> {
    let mut loose = instance.clone();
    let Some(now) = bound(&mut loose, root, order, instance.limits) else { return Vec::new() };
    let mut list = Vec::new();
    for (limit, limits) in loosened(&instance.limits) {
        if let Some(then) = bound(&mut loose, root, order, limits)
            && then < now
        {
            list.push(Binding { limit: limit.both(), price: money(now - then) });
        }
    }
    list
}
