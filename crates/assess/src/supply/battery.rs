//! How long the battery of a supply carries its site.

use super::stage_of_supply;
use crate::door::{Assumptions, out_of_range};
use crate::stage::WithVoltages;
use latchline_circuit::battery::charger::{CHARGE_FACTOR, USUAL_DEPTH, USUAL_HOURS};
use latchline_circuit::battery::{
    AGEING_FACTOR, BatteryRating, DischargeFactor, battery_current_a, bs_5839_annex, charging_current_a,
    effective_capacity_ah, equivalent_current_a, hours, margin_on_sum_ah, recharge_hours, temperature_factor,
};
use latchline_finding::StateKind;
use latchline_network::evaluate::Solver;
use latchline_network::{SearchOptions, source_power};
use latchline_site::model::USUAL_CALL_S;
use latchline_words::missing::Missing;

/// Coldest air taken where it is not stated, in °C (assumed).
pub const USUAL_COLDEST_C: f64 = 20.0;

/// Hours of the largest load that the sizing patterns add after standby (the half hour of BS 5839-1).
pub const LARGEST_LOAD_HOURS: f64 = 0.5;

/// One standby state on battery.
#[derive(Debug, Clone, PartialEq)]
pub struct BatteryLoad {
    /// The state; without any call, at the adverse corner.
    pub state: StateKind,
    /// Current at the supply's output at the low end of its voltage, in amperes.
    pub bus_current_a: f64,
    /// Largest power at its terminals in watts.
    pub bus_power_w: f64,
    /// Current drawn from the battery in amperes, without a call.
    pub battery_current_a: f64,
    /// The constant current that would empty the battery as fast as this state with the calls of the policy.
    pub with_calls_a: f64,
    /// Hours that the aged battery carries it.
    pub hours: f64,
}

/// Calls while the battery carries the site.
#[derive(Debug, Clone, PartialEq)]
pub struct CallShare {
    /// Calls in an hour.
    pub per_hour: f64,
    /// How long one lasts, in seconds.
    pub duration_s: f64,
    /// How many stand all the time: 0 where there are moments without a call.
    pub always: usize,
    /// Current drawn from the battery while these stand, in amperes; `None` where none does all the time.
    pub always_current_a: Option<f64>,
    /// Share of the time in which one more stands: at most 1.
    pub share: f64,
    /// Current drawn from the battery while one more stands, in amperes.
    pub battery_current_a: f64,
}

/// What was found about the battery of one supply.
#[derive(Debug, Clone, PartialEq)]
pub struct BatteryFigures {
    /// Nominal voltage in volts.
    pub voltage_v: f64,
    /// How many in parallel.
    pub batteries: u32,
    /// Rated capacity of all in ampere-hours.
    pub capacity_ah: f64,
    /// Hours at which that is rated.
    pub rated_hours: f64,
    /// Peukert exponent.
    pub peukert_exponent: f64,
    /// Efficiency from battery to bus.
    pub efficiency: f64,
    /// Lowest temperature of the battery in °C: the one that its capacity is reckoned at.
    pub coldest_c: f64,
    /// Factor by temperature.
    pub temperature_factor: f64,
    /// Capacity counted on, after ageing and temperature, in ampere-hours.
    pub effective_ah: f64,
    /// Standby states, in the order of the states.
    pub loads: Vec<BatteryLoad>,
    /// Current drawn from the battery by the largest load of any state, in amperes, and that state.
    pub largest: Option<(StateKind, f64)>,
    /// Calls that the policy counts with; `None` for standby alone.
    pub calls: Option<CallShare>,
    /// Whether the policy states calls and none is counted, since the supply has no operating point while as many stand.
    pub calls_collapse: bool,
    /// Hours that the site asks for.
    pub required_hours: Option<f64>,
    /// Capacity by the annex of BS 5839-1 for these hours of standby and half an hour of the largest
    /// load, with its discharge factor.
    pub by_annex: Option<(f64, DischargeFactor)>,
    /// Capacity by the sum of currents times hours with a margin of 1.2, the NFPA 72 pattern.
    pub by_sum_ah: Option<f64>,
    /// Greatest charging current in amperes, where stated.
    pub charge_current_a: Option<f64>,
    /// Charging current that puts four fifths back within 24 hours, in amperes.
    pub needed_charge_a: f64,
    /// Hours to put four fifths back with the charging current.
    pub recharge_hours: Option<f64>,
    /// Assumed values in it.
    pub assumed: Assumptions,
}

impl BatteryFigures {
    /// The standby state that the battery carries for the shortest time.
    pub fn shortest(&self) -> Option<&BatteryLoad> {
        self.loads.iter().min_by(|a, b| a.hours.total_cmp(&b.hours))
    }
}

/// The battery of a supply. `None` without one; an error lists what is missing.
pub fn battery_figures(
    context: &WithVoltages<'_>,
    supply: usize,
) -> Option<Result<BatteryFigures, Vec<Missing>>> {
    let site_supply = &context.site.supplies[supply];
    let model = context.site.supply_model(site_supply);
    let battery = model.battery.as_ref()?;
    let name = format!("{} battery", model.head.name);
    let mut missing = Vec::new();
    if battery.efficiency.is_none() {
        missing.push(Missing::key(&name, "efficiency"));
    }
    if battery.peukert_exponent.is_none() {
        missing.push(Missing::key(&name, "peukert_exponent"));
    }
    let (Some(efficiency), Some(exponent)) = (&battery.efficiency, &battery.peukert_exponent) else {
        return Some(Err(missing));
    };
    let mut assumed = Assumptions::default();
    assumed.note(&name, "capacity", &battery.capacity);
    assumed.note(&name, "rated_hours", &battery.rated_hours);
    assumed.note(&name, "peukert_exponent", exponent);
    assumed.note(&name, "efficiency", efficiency);
    let coldest_c = match &site_supply.coldest_ambient {
        Some(coldest) => coldest.value.as_celsius(),
        None => {
            assumed.add(format!("{} coldest_ambient", site_supply.id));
            let hottest_c = site_supply.ambient.as_ref().map_or(f64::INFINITY, |one| one.value.as_celsius());
            USUAL_COLDEST_C.min(hottest_c)
        }
    };
    if context.site.policy.calls_per_hour.is_some() && context.site.policy.call_duration.is_none() {
        assumed.add(String::from("policy call_duration"));
    }
    let batteries = site_supply.batteries.value.max(1);
    let capacity_ah = f64::from(batteries) * battery.capacity.value.as_amp_hours();
    let voltage_v = battery.voltage.value.as_volts();
    let efficiency = efficiency.value.as_fraction();
    let figures = || {
        let effective_ah = effective_capacity_ah(capacity_ah, AGEING_FACTOR, coldest_c)?;
        let rating = BatteryRating {
            capacity_ah: effective_ah,
            rated_hours: battery.rated_hours.value,
            peukert_exponent: exponent.value,
        };
        let calls = match call_share(context, supply) {
            Some(called) => {
                let current = |power_w| battery_current_a(power_w, efficiency, voltage_v);
                Some(CallShare {
                    per_hour: called.per_hour,
                    duration_s: called.duration_s,
                    always: called.always,
                    always_current_a: called.always_w.map(current).transpose()?,
                    share: called.share,
                    battery_current_a: current(called.one_more_w)?,
                })
            }
            None => None,
        };
        let mut loads = Vec::new();
        for (state, bus_current_a, bus_power_w) in standby_states(context, supply) {
            let battery_current_a = battery_current_a(bus_power_w, efficiency, voltage_v)?;
            let with_calls_a = match &calls {
                Some(calls) => equivalent_current_a(
                    calls.always_current_a.unwrap_or(0.0).max(battery_current_a),
                    calls.battery_current_a,
                    calls.share,
                    exponent.value,
                )?,
                None => battery_current_a,
            };
            let hours = hours(&rating, with_calls_a)?;
            loads.push(BatteryLoad {
                state,
                bus_current_a,
                bus_power_w,
                battery_current_a,
                with_calls_a,
                hours,
            });
        }
        let largest = match largest_load(context, supply) {
            Some((state, power_w)) => Some((state, battery_current_a(power_w, efficiency, voltage_v)?)),
            None => None,
        };
        let required_hours = context.site.policy.standby_hours.as_ref().map(|hours| hours.value);
        let heaviest_a = loads.iter().map(|load| load.battery_current_a).fold(0.0, f64::max);
        let (mut by_annex, mut by_sum_ah) = (None, None);
        if let (Some(required), Some((_, largest_a))) = (required_hours, largest) {
            by_annex = Some(bs_5839_annex(heaviest_a, required, largest_a, LARGEST_LOAD_HOURS)?);
            let parts = [(heaviest_a, required), (largest_a, LARGEST_LOAD_HOURS)];
            by_sum_ah = Some(margin_on_sum_ah(&parts, 1.2)?);
        }
        let charge_current_a = battery.charge_current.as_ref().map(|current| current.value.as_amps());
        let recharge = match charge_current_a {
            Some(current_a) => Some(recharge_hours(capacity_ah, USUAL_DEPTH, CHARGE_FACTOR, current_a)?),
            None => None,
        };
        Ok::<_, latchline_circuit::RangeError>(BatteryFigures {
            voltage_v,
            batteries,
            capacity_ah,
            rated_hours: rating.rated_hours,
            peukert_exponent: rating.peukert_exponent,
            efficiency,
            coldest_c,
            temperature_factor: temperature_factor(coldest_c)?,
            effective_ah,
            loads,
            calls_collapse: calls.is_none() && asks_for_calls(context, supply),
            calls,
            largest,
            required_hours,
            by_annex,
            by_sum_ah,
            charge_current_a,
            needed_charge_a: charging_current_a(capacity_ah, USUAL_DEPTH, CHARGE_FACTOR, USUAL_HOURS)?,
            recharge_hours: recharge,
            assumed: assumed.clone(),
        })
    };
    // Outside the kernels' ranges (a cupboard below -3.9 °C, an exponent of 3): the value is named.
    Some(figures().map_err(|error| {
        vec![match error.quantity {
            "battery_c" if error.value < error.least => {
                Missing::warmer_battery(site_supply.id.as_str().to_string(), error.value, error.least)
            }
            _ => out_of_range(name.clone(), &error),
        }]
    }))
}

/// The standby states of a supply at the adverse corner: state, current and power at its output.
fn standby_states(context: &WithVoltages<'_>, supply: usize) -> Vec<(StateKind, f64, f64)> {
    let Some(stage) = stage_of_supply(context, supply) else { return Vec::new() };
    let standby = |kind| matches!(kind, StateKind::StandbyDay | StateKind::StandbyNight);
    let phases = context.space.phases.iter().enumerate().filter(|(_, phase)| standby(phase.kind));
    phases
        .filter_map(|(index, phase)| {
            let power_w = context.worst.source_power[index][stage].as_ref()?.power_w?;
            let current_a = Solver::of_stage(context.layout, phase, stage).base(stage)?.source_current_a;
            (current_a > 0.0).then_some((phase.kind, current_a, power_w))
        })
        .collect()
}

/// What the policy says of calls, with the power of the supply while they stand.
struct Called {
    per_hour: f64,
    duration_s: f64,
    always: usize,
    always_w: Option<f64>,
    share: f64,
    one_more_w: f64,
}

/// Calls of the policy as time: as many whole ones as stand on the average all the time, and one more for the rest of it, never more at once
/// than the family allows.
fn call_share(context: &WithVoltages<'_>, supply: usize) -> Option<Called> {
    let policy = &context.site.policy;
    let per_hour = policy.calls_per_hour.as_ref()?.value;
    let duration_s = policy.call_duration.as_ref().map_or(USUAL_CALL_S, |one| one.value.as_seconds());
    let stage = stage_of_supply(context, supply)?;
    let most = context.space.phases.iter().find(|phase| phase.kind == StateKind::Call)?.most_calls.max(1);
    let standing = (per_hour * duration_s / 3600.0).min(most as f64);
    let always = (standing.ceil() as usize).saturating_sub(1);
    let options = SearchOptions::default();
    let of_calls = |at_once: usize| {
        source_power::of_calls(context.layout, context.space, stage, at_once, &options, context.memory)?
            .power_w
    };
    Some(Called {
        per_hour,
        duration_s,
        always,
        always_w: if always > 0 { Some(of_calls(always)?) } else { None },
        share: standing - always as f64,
        one_more_w: of_calls(always + 1)?,
    })
}

/// Whether the policy states calls, and there are some on the bus of a supply.
fn asks_for_calls(context: &WithVoltages<'_>, supply: usize) -> bool {
    context.site.policy.calls_per_hour.is_some()
        && stage_of_supply(context, supply).is_some()
        && context.space.phases.iter().any(|phase| phase.kind == StateKind::Call)
}

/// The state of the largest power of a supply, with that power: what the sizing patterns take as
/// the alarm load.
fn largest_load(context: &WithVoltages<'_>, supply: usize) -> Option<(StateKind, f64)> {
    let stage = stage_of_supply(context, supply)?;
    let power = context.worst.largest_power(stage, |_| true)?;
    let power_w = power.power_w?;
    (power_w > 0.0).then_some((context.space.phases[power.phase].kind, power_w))
}
