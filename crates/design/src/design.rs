//! The whole way: call groups onto buses, each bus designed, all of them together as one site file.

use crate::arrangement::SMALL_SITE;
use crate::bus::Bus;
use crate::effort::Effort;
use crate::groups::call_groups;
use crate::instance::Instance;
use crate::item::Owner;
use crate::judge::{Judged, judge, remarks};
use crate::money::{Amount, NONE, from_money, money};
use crate::obstacle::Obstacle;
use crate::outcome::{Binding, Design, Texts};
use crate::partition::{Partition, partition};
use crate::plan::{Plan, PlannedRun};
use crate::settled::settled;
use crate::space::describe;
use latchline_assess::Memory;
use latchline_finding::{Money, Sourced};
use latchline_site::catalogue::Family;
use latchline_survey::Survey;
use latchline_words::design::{LackingPart, SpaceWords, UnknownPart};
use std::collections::BTreeSet;

/// Asked before every further walking order, with their number so far, the best cost and the bound.
pub type GoOn<'g> = &'g mut (dyn FnMut(usize, Option<Money>, Money) -> bool + Send);

/// Makes a design of one family.
///
/// # Errors
/// [`Obstacle`]: why no design can be made.
pub fn design(
    survey: &Survey,
    family: &str,
    texts: Texts<'_>,
    effort: Effort,
    go_on: GoOn<'_>,
) -> Result<Design, Obstacle> {
    design_remembering(survey, family, texts, &Memory::default(), effort, go_on)
}

/// The same with what was judged before, of this survey or one like it.
///
/// # Errors
/// [`Obstacle`]: why no design can be made.
pub fn design_remembering(
    survey: &Survey,
    family: &str,
    texts: Texts<'_>,
    memory: &Memory,
    effort: Effort,
    go_on: GoOn<'_>,
) -> Result<Design, Obstacle> {
    let is_one = survey.settings.one_cable_type.as_ref().is_some_and(|one| one.value);
    // Within the pool, so that the many small parallel steps start without handing over between threads.
    rayon::scope(|_| {
        if is_one {
            return of_one_cable_type(survey, family, texts, memory, effort, go_on);
        }
        over_groups(survey, family, texts, memory, effort, go_on, &mut None)
    })
}

/// With each cable that may run everywhere by itself; the cheapest, and the least of the bounds.
fn of_one_cable_type(
    survey: &Survey,
    family: &str,
    texts: Texts<'_>,
    memory: &Memory,
    effort: Effort,
    go_on: GoOn<'_>,
) -> Result<Design, Obstacle> {
    let whole = Instance::new(survey, texts.catalogues.catalogue(), family_called(texts, family)?)?;
    let free = whole.wires.iter().filter(|wire| !wire.only_where_locked);
    let everywhere = free
        .filter(|wire| whole.environments.iter().all(|environment| wire.environments.contains(environment)));
    let mut best: Option<Design> = None;
    let mut bound: Option<Money> = None;
    let mut obstacle = Obstacle::NoPart { family: family.to_string(), part: LackingPart::OneCable };
    let mut is_first = true;
    for wire in everywhere {
        let mut own = survey.clone();
        own.settings.cables = vec![Sourced::assumed(wire.name.clone())];
        let mut least = None;
        let made = over_groups(&own, family, texts, memory, effort, &mut *go_on, &mut least);
        bound = bound.into_iter().chain(least).min();
        match made {
            Ok(design) => {
                if best.as_ref().is_none_or(|best| design.cost < best.cost) {
                    best = Some(Design { one_cable: Some(wire.name.clone()), ..design });
                }
            }
            Err(why) if is_first => obstacle = why,
            Err(_) => {}
        }
        is_first = false;
    }
    let Some(best) = best else { return Err(obstacle) };
    let lower_bound = bound.unwrap_or(Money::ZERO);
    let mut space = vec![SpaceWords::OneCableType.both()];
    space.extend(best.space.iter().cloned());
    Ok(Design { lower_bound, space, ..best })
}

/// `least` becomes the bound, whether there is a design or not; it stays `None` where no plan keeps the limits even under ideal conditions.
fn over_groups(
    survey: &Survey,
    family: &str,
    texts: Texts<'_>,
    memory: &Memory,
    effort: Effort,
    go_on: GoOn<'_>,
    least: &mut Option<Money>,
) -> Result<Design, Obstacle> {
    on_settled(survey, family, texts, |instance| {
        let groups = call_groups(instance);
        match groups.len() > 1 {
            true => on_buses(instance, &groups, texts, memory, effort, go_on, least),
            false => on_one_bus(instance, texts, memory, effort, go_on, least),
        }
    })?
}

fn family_called<'t>(texts: Texts<'t>, name: &str) -> Result<&'t Family, Obstacle> {
    let unknown = || Obstacle::UnknownPart { part: UnknownPart::Family, name: name.to_string() };
    texts.catalogues.catalogue().families.get(name).ok_or_else(unknown)
}

/// Does something with a survey made ready, as the family can number it.
fn on_settled<T>(
    survey: &Survey,
    family: &str,
    texts: Texts<'_>,
    act: impl FnOnce(&Instance<'_>) -> T,
) -> Result<T, Obstacle> {
    let (catalogue, family) = (texts.catalogues.catalogue(), family_called(texts, family)?);
    let instance = Instance::new(survey, catalogue, family)?;
    let Some((settled, told)) = settled(&instance) else { return Ok(act(&instance)) };
    let mut instance = Instance::new(&settled, catalogue, family)?;
    instance.settled = told;
    Ok(act(&instance))
}

/// All that call one another on one bus.
fn on_one_bus(
    instance: &Instance<'_>,
    texts: Texts<'_>,
    memory: &Memory,
    effort: Effort,
    go_on: GoOn<'_>,
    least: &mut Option<Money>,
) -> Result<Design, Obstacle> {
    let mut bus = Bus::new(instance, texts, memory, effort);
    bus.counted()?;
    bus.try_orders(effort.orders);
    while bus.orders() < effort.most_orders {
        let known = bus.best().map(|best| best.cost);
        let bound = if bus.bound() == Amount::MAX { Money::ZERO } else { money(bus.bound()) };
        if !go_on(bus.orders(), known, bound) || !bus.try_next() {
            break;
        }
    }
    bus.widen();
    *least = (bus.bound() != Amount::MAX).then(|| money(bus.bound()));
    let best = match bus.best() {
        Some(best) => best.clone(),
        None => with_longer_chains(instance, texts, memory, effort).ok_or_else(|| bus.obstacle())?,
    };
    Ok(Design {
        lower_bound: money(bus.bound()),
        orders: bus.orders(),
        assessed: bus.assessed(),
        space: describe(instance, bus.orders(), bus.most_supplies()),
        binding: if effort.prices_limits { bus.binding() } else { Vec::new() },
        ..finished(instance, best)
    })
}

/// Ports that are left free on every distributor where no plan passes that may use them all.
const LEFT_FREE: [usize; 3] = [2, 3, 4];

/// Where signals pass several distributors, each run on a port takes its share of them, so that few long chains carry what many short ones do
/// not: the cheapest of those found that leave so many ports free. They are in the space of all plans, so its bound
/// holds for them.
fn with_longer_chains(
    instance: &Instance<'_>,
    texts: Texts<'_>,
    memory: &Memory,
    effort: Effort,
) -> Option<Judged> {
    // On a small site every plan is learnt from, and few signals pass more than one distributor; without chains there are no long ones.
    if effort.takes_first || instance.items.len() <= SMALL_SITE || instance.limits.chain == 1 {
        return None;
    }
    let free = LEFT_FREE.into_iter().filter(|free| *free > instance.limits.spare);
    let designs = free.filter_map(|free| {
        let mut own = instance.clone();
        own.limits.spare = free;
        let mut bus = Bus::new(&own, texts, memory, effort);
        bus.counted().ok()?;
        bus.try_orders(effort.orders);
        bus.best().cloned()
    });
    designs.min_by_key(|judged| judged.cost)
}

/// A design of what was judged; bound, space and what limits cost are still to be said.
fn finished(instance: &Instance<'_>, judged: Judged) -> Design {
    let plans: Vec<&Plan> = judged.plans.iter().collect();
    let zones = plans.iter().flat_map(|plan| &plan.zones);
    Design {
        remarks: remarks(instance, &plans),
        supply_places: zones.map(|zone| zone.place).collect(),
        fixed: money(instance.fixed),
        largest_group: plans.iter().map(|plan| largest_group(instance, plan)).max().unwrap_or(0),
        one_cable: None,
        plans: judged.plans.clone(),
        text: judged.text,
        site: judged.site,
        assessment: judged.assessment,
        bill: judged.bill,
        material: judged.material,
        minutes: judged.minutes,
        cost: judged.cost,
        lower_bound: Money::ZERO,
        family: instance.family.head.name.clone(),
        space: Vec::new(),
        orders: 0,
        assessed: 0,
        binding: Vec::new(),
        cheapest_box: instance.distributors.first().map_or(Money::ZERO, |kind| money(kind.cost)),
    }
}

/// The most dwellings on one run: as many as one broken joint of it silences at most.
fn largest_group(instance: &Instance<'_>, plan: &Plan) -> usize {
    let is_dwelling = |item: &&usize| matches!(instance.items[**item].owner, Owner::Dwelling(_));
    let dwellings = |run: &PlannedRun| run.items.iter().filter(is_dwelling).count();
    plan.runs().into_iter().map(|(_, run)| dwellings(run)).max().unwrap_or(0)
}

/// A design of another survey of the same building, held to the limits of this one; its bound and what its limits cost are left to
/// whoever asks.
pub(crate) fn under(survey: &Survey, design: &Design, texts: Texts<'_>, memory: &Memory) -> Option<Design> {
    let mut own = survey.clone();
    if let Some(cable) = &design.one_cable {
        own.settings.cables = vec![Sourced::assumed(cable.clone())];
    }
    let made = on_settled(&own, &design.family, texts, |instance| {
        let plans: Vec<&Plan> = design.plans.iter().collect();
        Some(finished(instance, judge(instance, texts, memory, &plans).ok()?))
    });
    Some(Design { one_cable: design.one_cable.clone(), ..made.ok()?? })
}

/// Call groups on buses of their own, or with their neighbours on one.
fn on_buses(
    instance: &Instance<'_>,
    groups: &[Vec<usize>],
    texts: Texts<'_>,
    memory: &Memory,
    effort: Effort,
    go_on: GoOn<'_>,
    least: &mut Option<Money>,
) -> Result<Design, Obstacle> {
    let Partition { kinds, wirings, most_groups, most_items } = partition(instance, groups);
    let mut buses: Vec<Bus<'_, '_>> =
        kinds.iter().map(|kind| Bus::new(kind, texts, memory, effort)).collect();
    let count = groups.len();
    let mut cheapest: Vec<Vec<(Amount, usize)>> = vec![vec![(NONE, 0); count + 1]; count + 1];
    let mut bound = vec![vec![NONE; count + 1]; count + 1];
    // Parts with a design on one bus; more than two groups are followed up where fewer have one.
    let mut found: BTreeSet<(usize, usize)> = BTreeSet::new();
    let cost_of = |bus: &Bus<'_, '_>| bus.best().map_or(NONE, |best| from_money(best.cost));
    for length in 1..=count {
        for first in 0..=count - length {
            let end = first + length;
            let mut cheapest_here = (NONE, end);
            for middle in first + 1..end {
                let parted = (cheapest[first][middle].0 + cheapest[middle][end].0).min(NONE);
                cheapest_here = cheapest_here.min((parted, middle));
                let parted = (bound[first][middle] + bound[middle][end]).min(NONE);
                bound[first][end] = bound[first][end].min(parted);
            }
            if let Some(wiring) = wirings.get(&(first, end)) {
                let bus = &mut buses[wiring.kind];
                if bus.counted().is_ok() {
                    bus.prepare(effort.orders);
                    // What cannot be cheaper than its parts is not followed up.
                    let parts = [(first, end - 1), (first + 1, end)];
                    let promising = length <= 2 || parts.iter().all(|part| found.contains(part));
                    if bus.bound() < cheapest_here.0 && bus.best().is_none() && promising {
                        bus.try_orders(effort.orders);
                        bus.widen();
                    }
                    bound[first][end] = bound[first][end].min(bus.bound().min(NONE));
                    if bus.best().is_some() {
                        found.insert((first, end));
                    }
                    cheapest_here = cheapest_here.min((cost_of(bus), end));
                }
            }
            cheapest[first][end] = cheapest_here;
        }
    }
    *least = (bound[0][count] < NONE).then(|| money(bound[0][count]));
    let mut chosen = Vec::new();
    let mut pending = vec![(0, count)];
    while let Some((first, end)) = pending.pop() {
        let (cost, middle) = cheapest[first][end];
        if cost >= NONE {
            // The smallest part without a design is to blame.
            let failed = (first..end).find(|at| cheapest[*at][at + 1].0 >= NONE).unwrap_or(first);
            let bus = &buses[wirings[&(failed, failed + 1)].kind];
            bus.counted()?;
            return Err(bus.obstacle());
        }
        if middle == end {
            chosen.push((first, end));
        } else {
            pending.extend([(middle, end), (first, middle)]);
        }
    }
    let mut bound = bound[0][count];
    let orders = |buses: &[Bus<'_, '_>]| buses.iter().map(Bus::orders).sum::<usize>();
    let used: Vec<usize> = {
        let mut used: Vec<usize> = chosen.iter().map(|part| wirings[part].kind).collect();
        used.sort_unstable();
        used.dedup();
        used
    };
    // Further orders, one of each kind of bus in turn.
    'further: while orders(&buses) < effort.most_orders {
        let mut any = false;
        for kind in &used {
            let total: Amount = chosen.iter().map(|part| cost_of(&buses[wirings[part].kind])).sum();
            if !go_on(orders(&buses), Some(money(total)), money(bound)) {
                break 'further;
            }
            let before = buses[*kind].bound();
            any |= buses[*kind].try_next();
            // A wider space has a lower bound; by so much for each bus of the kind.
            let alike = wirings.values().filter(|wiring| wiring.kind == *kind).count() as Amount;
            bound -= (before - buses[*kind].bound()).max(0) * alike;
        }
        if !any {
            break;
        }
    }
    *least = Some(money(bound));
    let plans: Vec<Plan> = chosen
        .iter()
        .filter_map(|part| {
            let wiring = &wirings[part];
            Some(wiring.laid_out(buses[wiring.kind].best()?.plans.first()?))
        })
        .collect();
    let plans: Vec<&Plan> = plans.iter().collect();
    let assessed = buses.iter().map(Bus::assessed).sum::<usize>() + 1;
    let judged = judge(instance, texts, memory, &plans)
        .map_err(|rejection| Obstacle::Rejected { tried: assessed, findings: rejection.told })?;
    let tried = used.iter().map(|kind| buses[*kind].orders()).min().unwrap_or(0);
    let supplies = used.iter().map(|kind| buses[*kind].most_supplies()).max().unwrap_or(1);
    let mut space = vec![
        SpaceWords::Buses {
            groups: count,
            buses: chosen.len(),
            kinds: used.len(),
            most: most_groups,
            items: most_items,
        }
        .both(),
    ];
    space.extend(describe(instance, tried, supplies));
    let mut binding: Vec<Binding> = Vec::new();
    for kind in used.iter().filter(|_| effort.prices_limits) {
        let alike = chosen.iter().filter(|part| wirings[part].kind == *kind).count();
        for Binding { limit, price } in buses[*kind].binding() {
            let price = Money::from_millionths(price.as_millionths() * alike as i64);
            match binding.iter_mut().find(|known| known.limit == limit) {
                Some(known) => known.price = known.price + price,
                None => binding.push(Binding { limit, price }),
            }
        }
    }
    Ok(Design {
        lower_bound: money(bound),
        orders: tried,
        assessed,
        space,
        binding,
        ..finished(instance, judged)
    })
}
