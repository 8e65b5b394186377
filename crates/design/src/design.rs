//! The whole way: walking orders, plans with their lower bound, the site file, its assessment.

use crate::instance::Instance;
use crate::money::{Amount, from_units, units};
use crate::obstacle::Obstacle;
use crate::order::{small_orders, walking_order};
use crate::plan::{Assumptions, plan, tables_for};
use crate::search::Search;
use crate::space::describe;
use latchline_assess::Assessment;
use latchline_finding::Sources;
use latchline_site::LoadedCatalogues;
use latchline_site::bill::Bill;
use latchline_site::catalogue::Environment;
use latchline_site::model::Site;
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
    /// The catalogues, read from them.
    pub catalogues: &'a LoadedCatalogues,
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

/// A plan this near to its bound, as a fraction, is not improved further on a large site; one walking
/// order then does unless more are asked for.
pub const GOOD_ENOUGH_LARGE: f64 = 0.01;
/// Items above which a site is large.
pub const LARGE_SITE: usize = 300;

/// Asked before every further walking order, with their number so far, the best cost and the bound.
pub type GoOn<'g> = &'g mut (dyn FnMut(usize, Option<f64>, f64) -> bool + Send);

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
    // Within the pool, so that the many small parallel steps start without handing over between threads.
    rayon::scope(|_| over_orders(survey, family, texts, effort, go_on))
}

fn over_orders(
    survey: &Survey,
    family: &str,
    texts: Texts<'_>,
    effort: Effort,
    go_on: GoOn<'_>,
) -> Result<Design, Obstacle> {
    let catalogue = texts.catalogues.catalogue();
    let Some(family) = catalogue.families.get(family) else {
        return Err(Obstacle::UnknownPart { kind: "family", name: family.to_string() });
    };
    let instance = Instance::new(survey, catalogue, family)?;
    let mut best: Option<Design> = None;
    let mut bound = Amount::MAX;
    // Supplies that the bound reckons with in every order.
    let mut fewest = usize::MAX;
    let mut orders = 0;
    let mut search = Search::new(&instance, texts);
    let mut rejected: Option<Obstacle> = None;
    let mut first_order = None;
    let mut seen: Vec<(usize, Vec<usize>)> = Vec::new();
    for number in 0.. {
        if number >= effort.orders.max(small_orders(&instance)).max(1) {
            break;
        }
        let known = best.as_ref().map(|design| design.cost);
        if number > 0 && !go_on(orders, known, if bound == Amount::MAX { 0.0 } else { units(bound) }) {
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
        let Some(relaxed) = plan(&instance, &order, root, relaxed(0), Some(&tables)) else {
            continue;
        };
        bound = bound.min(relaxed.cost + instance.fixed);
        fewest = fewest.min(relaxed.most_supplies);
        let known_cost = best.as_ref().map(|design| from_units(design.cost));
        if known_cost.is_some_and(|known| relaxed.cost + instance.fixed >= known) {
            continue;
        }
        match search.pass(root, &order, relaxed, known_cost) {
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
    let supplies = best.site.supplies.len();
    if supplies > fewest {
        // The whole needs more supplies than ideal conditions would: the bound must hold for so many, too.
        for (root, order) in &seen {
            if let Some(plan) = plan(&instance, order, *root, relaxed(supplies), None) {
                bound = bound.min(plan.cost + instance.fixed);
            }
        }
    }
    best.lower_bound = units(bound);
    best.orders = orders;
    best.assessed = search.assessed;
    best.space = describe(&instance, orders, supplies.max(fewest));
    if let Some((root, order)) = first_order
        && instance.items.len() <= 120
    {
        best.binding = crate::blame::prices(&instance, root, &order);
    }
    Ok(best)
}

/// The assumptions under which a plan's cost is a lower bound.
pub fn relaxed(most_supplies: usize) -> Assumptions {
    Assumptions { drop_v: 0.0, fill: 1.0, trunk_wire: None, most_supplies }
}

/// Cables that trunks may have, cheapest first.
pub fn trunk_wires(instance: &Instance<'_>) -> Vec<usize> {
    let indoors = |wire: &usize| instance.wires[*wire].environments.contains(&Environment::Indoors);
    let wires: Vec<usize> = (0..instance.wires.len()).filter(indoors).collect();
    if wires.is_empty() { (0..instance.wires.len()).collect() } else { wires }
}
