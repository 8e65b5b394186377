//! What neighbouring items ask of a supply, or of a regenerating box, at the least.
//!
//! Every figure is the load of one admissible operating state at the highest voltage that could be
//! there, so that no design asks for less: loads draw no more current at a higher voltage.

use crate::electric::{Draw, StationLoad};
use crate::instance::Instance;
use crate::parts::Distributor;
use rayon::prelude::*;

/// The current that a load takes at least, with the drop of its rectifier.
pub type LeastCurrent<'f> = &'f (dyn Fn(Draw, f64) -> f64 + Sync);

/// Least currents of all intervals of a walking order.
pub struct Loads {
    /// Sums over the items before each.
    boot_a: Vec<f64>,
    standby_a: Vec<f64>,
    share: Vec<f64>,
    /// By first item: the busiest state of 0, 1, 2, ... items.
    busiest: Vec<Vec<f64>>,
}

/// What a call adds beyond standby, by moment.
#[derive(Debug, Clone, Copy, Default)]
struct Call {
    ringing_a: f64,
    talking_a: f64,
}

impl Call {
    fn most_a(self) -> f64 {
        self.ringing_a.max(self.talking_a)
    }
}

impl Loads {
    /// Of this order; intervals are left where booting alone is above `most_a`, or a supply's count.
    pub fn new(instance: &Instance<'_>, order: &[usize], least_a: LeastCurrent<'_>, most_a: f64) -> Self {
        let mut loads =
            Loads { boot_a: vec![0.0], standby_a: vec![0.0], share: vec![0.0], busiest: Vec::new() };
        for &item in order {
            let stations = &instance.items[item].loads;
            let sum = |of: &dyn Fn(&StationLoad) -> f64| stations.iter().map(of).sum::<f64>();
            let last = loads.share.len() - 1;
            loads.boot_a.push(loads.boot_a[last] + sum(&|load| least_a(load.boot, load.drop_v)));
            loads.standby_a.push(loads.standby_a[last] + sum(&|load| least_a(load.standby, load.drop_v)));
            loads.share.push(loads.share[last] + sum(&|load| load.share));
        }
        let calls: Vec<Call> = order.iter().map(|item| call(instance, *item, least_a)).collect();
        loads.busiest = (0..order.len())
            .into_par_iter()
            .map(|first| loads.busiest_from(instance, order, &calls, first, most_a))
            .collect();
        loads
    }

    /// The larger of booting, and standby with the heaviest calls that may stand together.
    pub fn busiest_a(&self, first: usize, end: usize) -> f64 {
        self.busiest[first].get(end - first).copied().unwrap_or(f64::INFINITY)
    }

    /// Share of a supply's datasheet count.
    pub fn share(&self, first: usize, end: usize) -> f64 {
        self.share[end] - self.share[first]
    }

    fn busiest_from(
        &self,
        instance: &Instance<'_>,
        order: &[usize],
        calls: &[Call],
        first: usize,
        most_a: f64,
    ) -> Vec<f64> {
        let mut callers: Vec<Heaviest> = vec![Heaviest::default(); instance.callers.len()];
        let mut table = vec![0.0];
        for (at, &item) in order.iter().enumerate().skip(first) {
            if let Some(number) = instance.callers.iter().position(|caller| *caller == item) {
                callers[number].own = Some(calls[at]);
            }
            for (number, caller) in callers.iter_mut().enumerate() {
                if instance.items[item].called_by >> number & 1 == 1 {
                    caller.note(item, calls[at], instance.calls);
                }
            }
            let boot_a = self.boot_a[at + 1] - self.boot_a[first];
            let standby_a = self.standby_a[at + 1] - self.standby_a[first];
            table.push(boot_a.max(standby_a + together_a(instance, &callers)));
            if boot_a > most_a || self.share(first, at + 1) > 1.0 + 1e-9 {
                break;
            }
        }
        table
    }
}

/// Currents that a supply is asked for: directly at its voltage, or through a regenerating box at its output's.
pub fn supply_loads(instance: &Instance<'_>, order: &[usize]) -> Loads {
    let supply_v = instance.supplies.iter().map(|supply| supply.voltage_v).fold(0.0, f64::max);
    let least_a = |draw: Draw, drop_v: f64| {
        let by_way_of = |kind: &Distributor| match kind.regenerated {
            Some(output) => {
                let factor = output.voltage_v / (supply_v * output.efficiency).max(1e-9);
                draw.at(output.voltage_v, drop_v) * factor
            }
            None => draw.at(supply_v, drop_v),
        };
        // On an output of the supply there is no distributor.
        let direct_a = draw.at(supply_v, drop_v);
        instance.distributors.iter().map(by_way_of).fold(direct_a, f64::min)
    };
    let most_a = instance.supplies.iter().map(|supply| supply.rated_a).fold(0.0, f64::max);
    Loads::new(instance, order, &least_a, most_a)
}

/// Currents that the output of a regenerating box is asked for.
pub fn output_loads(instance: &Instance<'_>, order: &[usize], kind: &Distributor) -> Option<Loads> {
    let output = kind.regenerated?;
    let least_a = |draw: Draw, drop_v: f64| draw.at(output.voltage_v, drop_v);
    Some(Loads::new(instance, order, &least_a, output.power_w / output.voltage_v.max(1e-9)))
}

/// One caller with those in the interval that it can call.
#[derive(Debug, Clone, Default)]
struct Heaviest {
    /// Its own part of a call, if it is in the interval.
    own: Option<Call>,
    /// The heaviest that it calls, heaviest first.
    called: Vec<(usize, Call)>,
}

impl Heaviest {
    fn note(&mut self, item: usize, call: Call, most: usize) {
        let at = self.called.partition_point(|(_, other)| other.most_a() >= call.most_a());
        if at < most {
            self.called.insert(at, (item, call));
            self.called.truncate(most);
        }
    }
}

/// What calls add at least: callers in turn, those in the interval first, each with the heaviest that is free.
/// Every party takes part in one call, so the set is admissible.
fn together_a(instance: &Instance<'_>, callers: &[Heaviest]) -> f64 {
    let mut turns: Vec<usize> = (0..callers.len()).collect();
    let own_a = |number: &usize| callers[*number].own.map_or(0.0, Call::most_a);
    turns.sort_by(|a, b| own_a(b).total_cmp(&own_a(a)));
    let mut busy: Vec<usize> = Vec::new();
    let (mut sum_a, mut stand) = (0.0, 0);
    for number in turns {
        if stand == instance.calls {
            break;
        }
        let caller = &callers[number];
        let own = caller.own.unwrap_or_default();
        let called = caller.called.iter().find(|(item, _)| !busy.contains(item));
        let other = match called {
            Some((item, call)) => {
                busy.push(*item);
                *call
            }
            // One outside the interval is called; it must have somebody to call there.
            None if caller.own.is_some() && instance.calls_anyone[number] && stand == 0 => Call::default(),
            None => continue,
        };
        stand += 1;
        sum_a += (own.ringing_a + other.ringing_a).max(own.talking_a + other.talking_a);
    }
    sum_a
}

/// What an item adds while it rings (all its stations, or it calls) and while its main station talks.
fn call(instance: &Instance<'_>, item: usize, least_a: LeastCurrent<'_>) -> Call {
    let loads = &instance.items[item].loads;
    let extra = |load: &StationLoad, draw: Draw| {
        (least_a(draw, load.drop_v) - least_a(load.standby, load.drop_v)).max(0.0)
    };
    let ringing_a = loads.iter().map(|load| extra(load, load.ringing)).sum();
    let talking_a = loads.first().map_or(0.0, |load| extra(load, load.talking));
    Call { ringing_a, talking_a }
}
