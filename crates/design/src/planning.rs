//! The cheapest plan of one walking order, and its lower bound.

use crate::instance::Instance;
use crate::plan::{Assumptions, Plan, Planner};
use crate::runs::{Barred, Tables, tables};
use crate::zones::Further;

/// Plans for one walking order.
pub fn plan(
    instance: &Instance<'_>,
    order: &[usize],
    root: usize,
    assumptions: Assumptions,
    run_tables: Option<&Tables>,
) -> Option<Plan> {
    let own;
    let tables = match run_tables {
        Some(tables) => tables,
        None => {
            own = tables_for(instance, order, assumptions.drop_v);
            &own
        }
    };
    let mut planner = Planner::new(instance, order, root, assumptions, tables);
    let may_cascade = instance.isolator.is_some() && instance.limits.cascade >= 3;
    let mut most_zones = if may_cascade { order.len() } else { 1 };
    let mut further: Option<Further> = None;
    let mut best: Option<Plan> = None;
    let mut zones = 0;
    while zones < most_zones {
        zones += 1;
        if zones > 1 {
            further.get_or_insert_with(|| Further::new(&planner)).extend_to(zones - 1);
        }
        let Some(plan) = planner.with_zones(zones, further.as_ref()) else { continue };
        if best.is_none() {
            most_zones = most_zones.min((zones + 1).max(assumptions.most_supplies));
        }
        if best.as_ref().is_none_or(|best| plan.cost < best.cost) {
            best = Some(plan);
        }
    }
    best.map(|plan| Plan { most_supplies: most_zones, ..plan })
}

/// Run tables of a walking order.
pub fn tables_for(instance: &Instance<'_>, order: &[usize], drop_v: f64) -> Tables {
    tables(instance, order, drop_v, &Barred::new())
}

/// The assumptions under which a plan's cost is a lower bound.
pub fn relaxed(most_supplies: usize) -> Assumptions {
    Assumptions { drop_v: 0.0, fill: 1.0, trunk_wire: None, most_supplies }
}
