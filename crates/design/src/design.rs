//! The whole way: walking orders, plans with their lower bound, the site file, its assessment.

use crate::instance::Instance;
use crate::money::{Amount, from_money, money};
use crate::obstacle::Obstacle;
use crate::order::{small_orders, walking_order};
use crate::outcome::{Design, Texts};
use crate::planning::{plan, relaxed, tables_for};
use crate::search::{GOOD_ENOUGH_LARGE, LARGE_SITE, Search};
use crate::space::describe;
use latchline_finding::Money;
use latchline_survey::Survey;
use latchline_words::design::UnknownPart;

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
        return Err(Obstacle::UnknownPart { part: UnknownPart::Family, name: family.to_string() });
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
        if number > 0 && !go_on(orders, known, if bound == Amount::MAX { Money::ZERO } else { money(bound) })
        {
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
        let known_cost = best.as_ref().map(|design| from_money(design.cost));
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
        let near =
            |design: &Design| design.cost.as_units() <= money(bound).as_units() * (1.0 + GOOD_ENOUGH_LARGE);
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
    best.lower_bound = money(bound);
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
