//! The whole way: walking orders, plans with their lower bound, the site file, its assessment.

use crate::emit::site_file;
use crate::instance::{Instance, Owner};
use crate::money::{Micro, micro, units};
use crate::obstacle::Obstacle;
use crate::plan::{Assumptions, Plan, plan, tables_for};
use crate::space::describe;
use latchline_assess::{Assessment, Verdict, assess};
use latchline_finding::{FileId, Severity, Sources};
use latchline_site::bill::Bill;
use latchline_site::catalogue::{Catalogue, Environment};
use latchline_site::model::Site;
use latchline_site::resolve;
use latchline_survey::Survey;

/// How hard to look.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Effort {
    /// Walking orders to try at most.
    pub orders: usize,
    /// Seed for the orders beyond the natural ones.
    pub seed: u64,
}

impl Default for Effort {
    fn default() -> Self {
        Effort { orders: 3, seed: 0 }
    }
}

/// Texts that a design is checked with.
#[derive(Clone, Copy)]
pub struct Texts<'a> {
    /// All texts.
    pub sources: &'a Sources,
    /// The catalogues among them, in their order.
    pub catalogues: &'a [FileId],
}

/// A design that passes.
#[derive(Debug, Clone, PartialEq)]
pub struct Design {
    /// The site file.
    pub text: String,
    /// The site.
    pub site: Site,
    /// Its assessment.
    pub assessment: Assessment,
    /// What must be bought and pulled.
    pub bill: Bill,
    /// Material.
    pub material: f64,
    /// Labour in minutes.
    pub minutes: f64,
    /// Material and labour.
    pub cost: f64,
    /// No design of the declared space costs less.
    pub lower_bound: f64,
    /// Family.
    pub family: String,
    /// The declared space, line by line.
    pub space: Vec<String>,
    /// Walking orders tried.
    pub orders: usize,
    /// Plans that were assessed before one passed.
    pub assessed: usize,
    /// What each limit of the policy costs.
    pub binding: Vec<Binding>,
    /// Cheapest box of the family, for judging the gap.
    pub cheapest_box: f64,
}

impl Design {
    /// Cost above the bound as a fraction of the bound.
    pub fn gap(&self) -> f64 {
        if self.lower_bound > 0.0 { (self.cost / self.lower_bound - 1.0).max(0.0) } else { 0.0 }
    }
}

/// What a limit costs.
#[derive(Debug, Clone, PartialEq)]
pub struct Binding {
    /// The limit, in words with its value.
    pub limit: String,
    /// By how much the lower bound falls without it.
    pub price: f64,
}

/// Most plans that are assessed for one walking order.
const MOST_ASSESSED: usize = 40;
/// Voltage losses between supply and distributors that are planned with.
const DROPS_V: [f64; 7] = [0.0, 0.25, 0.5, 1.0, 2.0, 3.0, 4.5];
/// A plan this near to its bound, as a fraction, is not improved further.
const GOOD_ENOUGH: f64 = 0.005;
/// The same for sites of more than [`LARGE_SITE`] items; one walking order then does unless more are asked for.
const GOOD_ENOUGH_LARGE: f64 = 0.01;
/// Items above which a site is large.
const LARGE_SITE: usize = 300;
/// How often less is put on each supply.
const FILLS: usize = 14;
/// By how much less.
const FILL_STEP: f64 = 0.94;
/// Trunk cables that plans reckon with.
const MOST_TRUNK_WIRES: usize = 5;

/// Makes a design of one family. `go_on` is asked before every further walking order, with their
/// number so far, the best cost and the bound.
///
/// # Errors
/// [`Obstacle`]: why no design can be made.
pub fn design(
    survey: &Survey,
    catalogue: &Catalogue,
    family: &str,
    texts: Texts<'_>,
    effort: Effort,
    go_on: &mut dyn FnMut(usize, Option<f64>, f64) -> bool,
) -> Result<Design, Obstacle> {
    let Some(family) = catalogue.families.get(family) else {
        return Err(Obstacle::UnknownPart { kind: "family", name: family.to_string() });
    };
    let instance = Instance::new(survey, catalogue, family)?;
    let mut best: Option<Design> = None;
    let mut bound = Micro::MAX;
    let mut orders = 0;
    let mut assessed = 0;
    let mut rejected: Option<Obstacle> = None;
    let mut first_order = None;
    let mut seen: Vec<(usize, Vec<usize>)> = Vec::new();
    for number in 0.. {
        if number >= effort.orders.max(small_orders(&instance)).max(1) {
            break;
        }
        let known = best.as_ref().map(|design| design.cost);
        if number > 0 && !go_on(orders, known, if bound == Micro::MAX { 0.0 } else { units(bound) }) {
            break;
        }
        let Some((root, order)) = walking_order(&instance, number, effort.seed) else { continue };
        if seen.contains(&(root, order.clone())) {
            continue;
        }
        orders += 1;
        seen.push((root, order.clone()));
        first_order.get_or_insert_with(|| (root, order.clone()));
        let tables = tables_for(&instance, &order, 0.0);
        let Some(relaxed) = plan(&instance, &order, root, relaxed(&instance), Some(&tables)) else {
            continue;
        };
        bound = bound.min(relaxed.cost + instance.fixed);
        let known_cost = best.as_ref().map(|design| (design.cost * 1e6) as Micro);
        if known_cost.is_some_and(|known| relaxed.cost + instance.fixed >= known) {
            continue;
        }
        match pass(&instance, texts, root, &order, relaxed, known_cost, &mut assessed) {
            Ok(Some(design)) => {
                if best.as_ref().is_none_or(|best| design.cost < best.cost) {
                    best = Some(design);
                }
            }
            Ok(None) => {}
            Err(obstacle) => rejected = rejected.or(Some(obstacle)),
        }
        let near = |design: &Design| design.cost <= units(bound) * (1.0 + GOOD_ENOUGH_LARGE);
        if instance.items.len() > LARGE_SITE
            && effort.orders <= Effort::default().orders
            && best.as_ref().is_some_and(near)
        {
            break;
        }
    }
    let Some(mut best) = best else {
        if let Some(rejected) = rejected {
            return Err(rejected);
        }
        let Some((root, order)) = first_order else {
            return Err(Obstacle::Together { relaxation: None });
        };
        return Err(crate::blame::blame(&instance, root, &order));
    };
    best.lower_bound = units(bound).min(best.cost);
    best.orders = orders;
    best.assessed = assessed;
    best.space = describe(&instance, orders);
    if let Some((root, order)) = first_order
        && instance.items.len() <= 120
    {
        best.binding = crate::blame::prices(&instance, root, &order);
    }
    Ok(best)
}

/// The assumptions under which a plan's cost is a lower bound.
pub fn relaxed(instance: &Instance<'_>) -> Assumptions {
    let trunk_wire = trunk_wires(instance).into_iter().min_by_key(|wire| instance.wires[*wire].per_dm);
    Assumptions { drop_v: 0.0, fill: 1.0, trunk_wire: trunk_wire.unwrap_or(0) }
}

/// Cables that trunks may have, cheapest first.
fn trunk_wires(instance: &Instance<'_>) -> Vec<usize> {
    let indoors = |wire: &usize| instance.wires[*wire].environments.contains(&Environment::Indoors);
    let wires: Vec<usize> = (0..instance.wires.len()).filter(indoors).collect();
    if wires.is_empty() { (0..instance.wires.len()).collect() } else { wires }
}

/// Items in the order of a walk, with the place of the first supply. The natural walks come first:
/// from each place with mains, branches as the survey lists them, then the longest branch last and first.
fn walking_order(instance: &Instance<'_>, number: usize, seed: u64) -> Option<(usize, Vec<usize>)> {
    let mains = &instance.mains;
    let root = mains[number % mains.len()];
    let variant = number / mains.len();
    if instance.items.len() <= MOST_PERMUTED {
        return permutation(instance.items.len(), variant).map(|order| (root, order));
    }
    let places = instance.survey.places.len();
    let turn: Vec<u64> = match variant {
        0 => vec![0; places],
        1 => (0..places).map(|place| instance.way(root, place).map_or(0, |way| way.length_mm)).collect(),
        2 => (0..places)
            .map(|place| instance.way(root, place).map_or(0, |way| u64::MAX / 2 - way.length_mm))
            .collect(),
        _ => (0..places as u64).map(|place| scrambled(seed ^ ((number as u64) << 32) ^ place)).collect(),
    };
    let walk = instance.survey.routes.walk(root, &turn);
    let mut at: Vec<Vec<usize>> = vec![Vec::new(); places];
    for (index, item) in instance.items.iter().enumerate() {
        at[item.place].push(index);
    }
    let order: Vec<usize> = walk.iter().flat_map(|place| at[*place].iter().copied()).collect();
    (order.len() == instance.items.len()).then_some((root, order))
}

/// Items of a site up to which every order is a walking order, so that every grouping is tried.
pub const MOST_PERMUTED: usize = 5;

/// How many orders a small site has.
fn small_orders(instance: &Instance<'_>) -> usize {
    let count = instance.items.len();
    if count <= MOST_PERMUTED { (1..=count).product::<usize>() * instance.mains.len() } else { 1 }
}

/// The permutation with this number, in lexicographic order.
fn permutation(count: usize, number: usize) -> Option<Vec<usize>> {
    let mut left: Vec<usize> = (0..count).collect();
    let mut rest = number;
    let mut order = Vec::new();
    for size in (1..=count).rev() {
        let block: usize = (1..size).product();
        if rest / block >= left.len() {
            return None;
        }
        order.push(left.remove(rest / block));
        rest %= block;
    }
    Some(order)
}

/// The finaliser of SplitMix64 (Steele, Lea and Flood 2014; constants from memory).
fn scrambled(seed: u64) -> u64 {
    let mut z = seed.wrapping_add(0x9E37_79B9_7F4A_7C15);
    z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    z ^ (z >> 31)
}

/// Looks for the cheapest plan of an order that passes the assessment.
///
/// First the plan of the bound with thicker and thicker trunks, then with less on each supply; only
/// where that leaves a gap, plans that reckon with losses on the trunks.
fn pass(
    instance: &Instance<'_>,
    texts: Texts<'_>,
    root: usize,
    order: &[usize],
    first: Plan,
    known: Option<Micro>,
    assessed: &mut usize,
) -> Result<Option<Design>, Obstacle> {
    let bound = units(first.cost + instance.fixed);
    let wires = trunk_wires(instance);
    let cheapest_box = instance.distributors.first().map_or(0.0, |kind| units(kind.cost));
    let mut fill = 1.0;
    let mut rejected = Vec::new();
    let mut best: Option<Design> = None;
    let mut current = Some(first);
    // Quick: the plan as it is.
    'fills: for _ in 0..FILLS {
        let Some(planned) = current.take() else { break };
        for &wire in &wires {
            match check(instance, texts, &with_trunks(&planned, wire), assessed) {
                Ok(design) => {
                    best = Some(design);
                    break 'fills;
                }
                Err(Failure::Voltage(findings)) => rejected = findings,
                Err(Failure::Load(findings)) => {
                    rejected = findings;
                    fill *= FILL_STEP;
                    let assumptions = Assumptions { drop_v: 0.0, fill, trunk_wire: wires[0] };
                    let tables = tables_for(instance, order, 0.0);
                    current = plan(instance, order, root, assumptions, Some(&tables));
                    continue 'fills;
                }
                Err(Failure::Other(findings)) => return Err(Obstacle::Rejected { findings }),
            }
        }
    }
    let share = if instance.items.len() > LARGE_SITE { GOOD_ENOUGH_LARGE } else { GOOD_ENOUGH };
    let good = |cost: f64| cost - bound <= (bound * share).max(cheapest_box * 0.5);
    if best.as_ref().is_some_and(|best| good(best.cost)) {
        return Ok(best);
    }
    let mut candidates: Vec<Plan> = Vec::new();
    for drop_v in DROPS_V {
        let tables = tables_for(instance, order, drop_v);
        for &trunk_wire in wires.iter().take(MOST_TRUNK_WIRES) {
            let assumptions = Assumptions { drop_v, fill, trunk_wire };
            candidates.extend(plan(instance, order, root, assumptions, Some(&tables)));
        }
        if best.is_some() && instance.items.len() > 150 {
            break;
        }
    }
    let known = known.map_or(f64::INFINITY, units);
    let least = best.as_ref().map_or(known, |best| best.cost.min(known));
    candidates.retain(|plan| units(plan.cost + instance.fixed) < least);
    candidates.sort_by_key(|plan| plan.cost);
    candidates.dedup();
    for candidate in candidates.into_iter().take(MOST_ASSESSED) {
        match check(instance, texts, &candidate, assessed) {
            Ok(design) => {
                let better = best.as_ref().is_none_or(|best| design.cost < best.cost);
                return Ok(if better { Some(design) } else { best });
            }
            Err(Failure::Voltage(findings) | Failure::Load(findings) | Failure::Other(findings)) => {
                rejected = findings;
            }
        }
    }
    match best {
        Some(best) => Ok(Some(best)),
        None => Err(Obstacle::Rejected { findings: rejected }),
    }
}

/// The same plan with another trunk cable.
fn with_trunks(plan: &Plan, wire: usize) -> Plan {
    let mut plan = plan.clone();
    for trunk in plan.zones.iter_mut().flat_map(|zone| &mut zone.trunks) {
        trunk.wire = wire;
    }
    plan
}

/// Why a plan does not pass.
enum Failure {
    /// Thicker conductors or shorter runs may help.
    Voltage(Vec<String>),
    /// Less on each supply and port may help.
    Load(Vec<String>),
    /// No other plan helps.
    Other(Vec<String>),
}

fn check(
    instance: &Instance<'_>,
    texts: Texts<'_>,
    plan: &Plan,
    assessed: &mut usize,
) -> Result<Design, Failure> {
    *assessed += 1;
    let notes = notes(instance, plan);
    let text = site_file(instance, plan, &notes);
    let mut sources = texts.sources.clone();
    let file = sources.add("site.toml", text.as_str());
    let resolved = resolve(&sources, file, texts.catalogues);
    let Some(mut site) = resolved.site else {
        let findings = resolved.findings.iter().filter(|finding| finding.severity == Severity::Error);
        let told = findings.map(|finding| {
            let element = finding.element.as_ref().map_or(String::new(), |element| format!(" {element}"));
            format!("{}{element}", finding.code)
        });
        return Err(Failure::Other(told.collect()));
    };
    let assessment = assess(&site);
    if assessment.verdict == Verdict::Fails {
        let errors: Vec<_> = assessment
            .findings
            .iter()
            .filter(|finding| finding.severity == Severity::Error && finding.accepted.is_none())
            .collect();
        let told = errors
            .iter()
            .map(|finding| match &finding.element {
                Some(element) => format!("{} {element}", finding.code),
                None => finding.code.to_string(),
            })
            .collect();
        let is = |codes: &[&str]| errors.iter().any(|finding| codes.contains(&finding.code.as_str()));
        let all = |codes: &[&str]| errors.iter().all(|finding| codes.contains(&finding.code.as_str()));
        const VOLTAGE: &[&str] = &["voltage-too-low", "no-operating-point", "short-not-detected"];
        const LOAD: &[&str] = &[
            "supply-overloaded",
            "port-overloaded",
            "supply-count-exceeded",
            "battery-hours-short",
            "startup-brown-out",
            "startup-hiccups",
            "run-too-long",
            "total-length-exceeded",
        ];
        let both: Vec<&str> = VOLTAGE.iter().chain(LOAD).copied().collect();
        return Err(if !all(&both) {
            Failure::Other(told)
        } else if is(LOAD) {
            Failure::Load(told)
        } else {
            Failure::Voltage(told)
        });
    }
    reprice(&mut site, instance.survey);
    let bill = Bill::of(&site);
    let (material, minutes) = (bill.material(), bill.minutes());
    let per_hour = instance.survey.settings.labour_per_hour;
    Ok(Design {
        text,
        assessment,
        material,
        minutes,
        cost: units(micro(material, minutes, per_hour)),
        lower_bound: 0.0,
        family: instance.family.head.name.clone(),
        space: Vec::new(),
        orders: 0,
        assessed: 0,
        binding: Vec::new(),
        cheapest_box: instance.distributors.first().map_or(0.0, |kind| units(kind.cost)),
        bill,
        site,
    })
}

/// Puts the survey's prices in place of the catalogue's.
pub fn reprice(site: &mut Site, survey: &Survey) {
    let catalogue = &mut site.catalogue;
    let heads = catalogue
        .supplies
        .values_mut()
        .map(|part| &mut part.head)
        .chain(catalogue.boxes.values_mut().map(|part| &mut part.head))
        .chain(catalogue.stations.values_mut().map(|part| &mut part.head))
        .chain(catalogue.cables.values_mut().map(|part| &mut part.head))
        .chain(catalogue.locks.values_mut().map(|part| &mut part.head))
        .chain(catalogue.accessories.values_mut().map(|part| &mut part.head));
    for head in heads {
        let Some(own) = survey.prices.get(&head.name) else { continue };
        let sourced = |value: f64| {
            latchline_finding::Sourced::new(
                value,
                own.part.origin.clone(),
                latchline_finding::Provenance::Stated,
            )
        };
        if let Some(price) = own.price {
            head.price = Some(sourced(price));
        }
        if let Some(minutes) = own.labour_minutes {
            head.labour_minutes = Some(sourced(minutes));
        }
    }
}

/// What the head of the file says.
fn notes(instance: &Instance<'_>, plan: &Plan) -> Vec<String> {
    let settings = &instance.survey.settings;
    let dwellings = instance.items.iter().filter(|item| matches!(item.owner, Owner::Dwelling(_))).count();
    let boxes: usize = plan.zones.iter().flat_map(|zone| &zone.trunks).map(|trunk| trunk.boxes.len()).sum();
    let mut notes = vec![
        format!(
            "{dwellings} dwellings and {} entrances on {} of {boxes} distributors.",
            instance.survey.entrances.len(),
            if plan.zones.len() == 1 {
                String::from("one supply by way")
            } else {
                format!("{} supplies by way", plan.zones.len())
            }
        ),
        format!(
            "Lengths are the survey's ways with {} % slack and {} m at each end.",
            (settings.slack * 1000.0).round() / 10.0,
            settings.termination_m
        ),
    ];
    if let Some(group) = &settings.largest_group {
        notes.push(format!(
            "No run has more than {} dwellings: one broken joint silences no more.",
            group.value
        ));
    }
    notes.push(String::from("Check it with: latchline check"));
    notes
}
