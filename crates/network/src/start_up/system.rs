//! A stage as a case of the simulator.

use crate::corner::Corner;
use crate::demand::{Activity, Demand, box_demand, station_demand};
use crate::layout::{Layout, Stage, StageNode, StageSource};
use latchline_circuit::startup::{
    BusDevice, BusLoad, Converter, Port, PortLimit, SMALLEST_HYSTERESIS_V, Supply, SupplyLimit, System,
};
use latchline_finding::ElementId;
use latchline_finding::Sourced;
use latchline_finding::quantity::Voltage;
use latchline_site::catalogue::{BoxKind, BoxModel, LimitKind};
use latchline_site::model::Site;
use latchline_words::missing::Missing as Lack;

/// A value without which power return cannot be judged.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Missing {
    /// The element that needs it.
    pub element: ElementId,
    /// The part and key that is missing.
    pub missing: Lack,
}

/// A stage ready to be simulated.
pub(super) struct Built {
    pub system: System,
    /// Box and port of each limiter, in the order of the system's.
    pub ports: Vec<(usize, u32)>,
    /// Which run a device hangs on, for staggering.
    pub group: Vec<u32>,
    /// Stations without a converter.
    pub plain: Vec<Plain>,
    /// Whether the supply stays off once it has tripped.
    pub stays_off: bool,
}

/// A station without a converter, which draws from the first volt on: of boot and standby the larger, for good.
pub(super) struct Plain {
    pub node: usize,
    /// What it takes at the source's nominal voltage, in amperes.
    pub current_a: f64,
    /// How long it boots, in seconds; 0 where its model states none.
    pub boot_time_s: f64,
    /// Least voltage at which it works, in volts.
    pub least_voltage_v: f64,
}

/// Longer than anything that is simulated.
const FOR_GOOD_S: f64 = 1e5;

/// Turns a stage into a case of the simulator.
///
/// # Errors
/// Everything that is missing in the catalogue.
pub(super) fn build(site: &Site, layout: &Layout, stage: usize) -> Result<Built, Vec<Missing>> {
    let laid = &layout.stages[stage];
    let mut builder = Builder { site, laid, missing: Vec::new(), plain: Vec::new() };
    let (supply, stays_off) = builder.source();
    let (ports, port_names) = builder.ports();
    let mut devices = Vec::new();
    let mut bus_loads = Vec::new();
    for (node, terminal) in laid.terminal.iter().enumerate() {
        match *terminal {
            StageNode::Station(station) => builder.station(station, node, &mut devices, &mut bus_loads),
            StageNode::BoxInput(index) => {
                builder.box_input(layout, stage, index, node, &mut devices, &mut bus_loads);
            }
            _ => {}
        }
    }
    if !builder.missing.is_empty() {
        return Err(builder.missing);
    }
    let group = devices.iter().map(|device: &BusDevice| group_of(laid, device.node)).collect();
    let system = System {
        parent: laid.parent.clone(),
        loop_resistance_ohm: laid.resistance_ohm[Corner::Adverse.index()].clone(),
        supply,
        ports,
        devices,
        bus_loads,
        bus_capacitors: Vec::new(),
    };
    Ok(Built { system, ports: port_names, group, plain: builder.plain, stays_off })
}

/// Number of the run that a node hangs on, counted along the nodes.
fn group_of(laid: &Stage, node: usize) -> u32 {
    let runs = laid.segment[..=node].iter().enumerate();
    let starts =
        runs.filter(|(_, segment)| matches!(segment, crate::layout::Segment::Cable { section: 0, .. }));
    starts.count().saturating_sub(1) as u32
}

struct Builder<'a> {
    site: &'a Site,
    laid: &'a Stage,
    missing: Vec<Missing>,
    plain: Vec<Plain>,
}

impl Builder<'_> {
    /// The number of a value that must be there.
    fn need<T: Copy>(
        &mut self,
        element: &ElementId,
        model: &str,
        key: &'static str,
        value: &Option<Sourced<T>>,
    ) -> Option<T> {
        if value.is_none() {
            self.lacks(element, Lack::key(model, key));
        }
        value.as_ref().map(|value| value.value)
    }

    fn lacks(&mut self, element: &ElementId, missing: Lack) {
        self.missing.push(Missing { element: element.clone(), missing });
    }

    fn source(&mut self) -> (Supply, bool) {
        let voltage_v = self.laid.voltage_v[Corner::Adverse.index()];
        let nominal_v = self.laid.voltage_v[Corner::Nominal.index()];
        let mut supply = Supply {
            voltage_v,
            resistance_ohm: self.laid.resistance_ohm[Corner::Adverse.index()][0],
            limit: SupplyLimit::None,
            output_capacitance_f: 0.0,
            initial_voltage_v: 0.0,
            ramp_time_s: 0.0,
        };
        let mut stays_off = false;
        match self.laid.source {
            StageSource::Supply(index) => {
                let unit = &self.site.supplies[index];
                let model = self.site.supply_model(unit);
                let name = &model.head.name;
                let limit_a = model.limit_current.as_ref().unwrap_or(&model.rated_current).value.as_amps();
                if let Some(capacitance) = &model.output_capacitance {
                    supply.output_capacitance_f = capacitance.value.as_farads();
                }
                supply.limit = match model.limit_kind.value {
                    LimitKind::ConstantCurrent => SupplyLimit::ConstantCurrent { current_a: limit_a },
                    LimitKind::Foldback => {
                        self.need(&unit.id, name, "output_capacitance", &model.output_capacitance);
                        let short =
                            self.need(&unit.id, name, "short_circuit_current", &model.short_circuit_current);
                        SupplyLimit::Foldback {
                            max_current_a: limit_a,
                            knee_voltage_v: model.foldback_from.value.as_fraction() * nominal_v,
                            short_current_a: short.map_or(0.0, |short| short.as_amps()).min(limit_a),
                        }
                    }
                    LimitKind::Hiccup => {
                        let trip = self.need(&unit.id, name, "trip_delay", &model.trip_delay);
                        let pause = self.need(&unit.id, name, "retry_pause", &model.retry_pause);
                        SupplyLimit::Hiccup {
                            current_a: limit_a,
                            trip_time_s: trip.map_or(1.0, |trip| trip.as_seconds()),
                            off_time_s: pause.map_or(1.0, |pause| pause.as_seconds()),
                        }
                    }
                    LimitKind::Trip => {
                        stays_off = true;
                        let trip = self.need(&unit.id, name, "trip_delay", &model.trip_delay);
                        SupplyLimit::Hiccup {
                            current_a: limit_a,
                            trip_time_s: trip.map_or(1.0, |trip| trip.as_seconds()),
                            off_time_s: FOR_GOOD_S,
                        }
                    }
                };
            }
            StageSource::Regenerator(index) => {
                let model = self.site.box_model(&self.site.boxes[index]);
                if let Some(power) = &model.output_power {
                    supply.limit =
                        SupplyLimit::ConstantCurrent { current_a: power.value.as_watts() / nominal_v };
                }
            }
        }
        (supply, stays_off)
    }

    fn ports(&mut self) -> (Vec<Port>, Vec<(usize, u32)>) {
        let (mut ports, mut names) = (Vec::new(), Vec::new());
        for (node, terminal) in self.laid.terminal.iter().enumerate() {
            let StageNode::Port { box_index, port } = *terminal else { continue };
            let item = &self.site.boxes[box_index];
            let model = self.site.box_model(item);
            let Some(limit) = &model.port_current_limit else { continue };
            let current_a = limit.value.as_amps();
            let name = &model.head.name;
            let kind = self.need(&item.id, name, "port_limit_kind", &model.port_limit_kind);
            let limit = match kind {
                None => continue,
                // How a port folds back is not stated; holding its limit is the most that it gives.
                Some(LimitKind::ConstantCurrent | LimitKind::Foldback) => {
                    PortLimit::ConstantCurrent { current_a }
                }
                Some(kind) => {
                    let delay = self.need(&item.id, name, "port_trip_delay", &model.port_trip_delay);
                    let retry = if kind == LimitKind::Hiccup {
                        self.need(&item.id, name, "port_retry_pause", &model.port_retry_pause)
                    } else {
                        None
                    };
                    PortLimit::Trip {
                        current_a,
                        trip_time_s: delay.map_or(1.0, |delay| delay.as_seconds()),
                        retry_time_s: retry.map(|retry| retry.as_seconds()),
                    }
                }
            };
            ports.push(Port { node, limit, closes_at_s: 0.0 });
            names.push((box_index, port));
        }
        (ports, names)
    }

    fn station(&mut self, index: usize, node: usize, devices: &mut Vec<BusDevice>, loads: &mut Vec<BusLoad>) {
        let station = &self.site.stations[index];
        let model = self.site.station_model(station);
        let name = &model.head.name;
        let demand = |activity| station_demand(self.site, station, activity, true, Corner::Adverse);
        let (boot, running) = (demand(Activity::Booting), demand(Activity::Standby));
        if model.converter.as_ref().is_some_and(|converter| !converter.value) {
            let worse = if boot.current_at(self.nominal_v(), 0.0) > running.current_at(self.nominal_v(), 0.0)
            {
                boot
            } else {
                running
            };
            let by_power = worse.power_w / self.nominal_v();
            let current_a = worse.current_a + by_power;
            loads.push(BusLoad { node, current_a, conductance_s: worse.conductance_s });
            self.plain.push(Plain {
                node,
                current_a: current_a + worse.conductance_s * self.nominal_v(),
                boot_time_s: model.boot_time.as_ref().map_or(0.0, |time| time.value.as_seconds()),
                least_voltage_v: model.least_standby_voltage.value.as_volts(),
            });
            return;
        }
        let on = self.need(&station.id, name, "turn_on_voltage", &model.turn_on_voltage);
        let off = self.need(&station.id, name, "turn_off_voltage", &model.turn_off_voltage);
        let capacitance = self.need(&station.id, name, "input_capacitance", &model.input_capacitance);
        // What it takes while it boots, and how long, is nothing that its standby tells.
        match (&model.boot, &model.boot_time) {
            (Some(_), Some(_)) => {}
            (Some(_), None) => self.lacks(&station.id, Lack::key(name, "boot_time")),
            (None, Some(_)) => self.lacks(&station.id, Lack::key(name, "boot")),
            (None, None) => {
                let both = Lack::Keys { part: name.clone(), first: "boot", second: "boot_time" };
                self.lacks(&station.id, both);
            }
        }
        let (Some(on), Some(off), Some(capacitance)) = (on, off, capacitance) else { return };
        let bridge_drop_v = model.rectifier_drop.as_ref().map_or(0.0, |drop| drop.value.as_volts());
        let delay_s = model.turn_on_delay.as_ref().map_or(0.0, |delay| delay.value.as_seconds());
        if delay_s == 0.0 && !differ(on, off) {
            self.lacks(&station.id, Lack::LowerTurnOffOrDelay { part: name.clone() });
            return;
        }
        let (turn_on_v, turn_off_v) =
            thresholds(on.as_volts() - bridge_drop_v, off.as_volts() - bridge_drop_v, delay_s);
        devices.push(BusDevice {
            node,
            capacitance_f: capacitance.as_farads(),
            bridge_drop_v,
            initial_voltage_v: 0.0,
            discharge_s: 0.0,
            inrush_limit_a: model.inrush_limit.as_ref().map(|limit| limit.value.as_amps()),
            converter: Some(Converter {
                turn_on_v,
                turn_off_v,
                delay_s,
                boot_power_w: self.as_power_w(boot),
                boot_time_s: model.boot_time.as_ref().map_or(0.0, |time| time.value.as_seconds()),
                running_power_w: self.as_power_w(running),
            }),
        });
    }

    fn nominal_v(&self) -> f64 {
        self.laid.voltage_v[Corner::Nominal.index()]
    }

    fn as_power_w(&self, demand: Demand) -> f64 {
        let voltage_v = self.nominal_v();
        demand.power_w + demand.current_a * voltage_v + demand.conductance_s * voltage_v * voltage_v
    }

    fn box_input(
        &mut self,
        layout: &Layout,
        stage: usize,
        index: usize,
        node: usize,
        devices: &mut Vec<BusDevice>,
        loads: &mut Vec<BusLoad>,
    ) {
        let item = &self.site.boxes[index];
        let model = self.site.box_model(item);
        let own_w = self.as_power_w(box_demand(model, Corner::Adverse));
        if model.kind.value != BoxKind::Regenerated {
            if own_w > 0.0 {
                let at_v = least_voltage(model).unwrap_or(self.nominal_v());
                loads.push(BusLoad { node, current_a: own_w / at_v, conductance_s: 0.0 });
            }
            return;
        }
        let name = &model.head.name;
        let on = self.need(&item.id, name, "turn_on_voltage", &model.turn_on_voltage);
        let off = self.need(&item.id, name, "turn_off_voltage", &model.turn_off_voltage);
        let capacitance = self.need(&item.id, name, "input_capacitance", &model.input_capacitance);
        let (Some(on), Some(off), Some(capacitance)) = (on, off, capacitance) else { return };
        if !differ(on, off) {
            self.lacks(&item.id, Lack::LowerTurnOff { part: name.clone() });
            return;
        }
        let below = layout.stages[stage].converters.iter().find(|converter| converter.node == node);
        let power_w = below.map_or(0.0, |converter| {
            let boot_w = boot_power_below(self.site, layout, converter.stage);
            let most_w = model.output_power.as_ref().map_or(boot_w, |power| power.value.as_watts());
            boot_w.min(most_w) / converter.efficiency
        });
        let bridge_drop_v = model.rectifier_drop.as_ref().map_or(0.0, |drop| drop.value.as_volts());
        let (turn_on_v, turn_off_v) =
            thresholds(on.as_volts() - bridge_drop_v, off.as_volts() - bridge_drop_v, 0.0);
        devices.push(BusDevice {
            node,
            capacitance_f: capacitance.as_farads(),
            bridge_drop_v,
            initial_voltage_v: 0.0,
            discharge_s: 0.0,
            inrush_limit_a: None,
            converter: Some(Converter {
                turn_on_v,
                turn_off_v,
                delay_s: 0.0,
                boot_power_w: power_w + own_w,
                boot_time_s: 0.0,
                running_power_w: power_w + own_w,
            }),
        });
    }
}

fn least_voltage(model: &BoxModel) -> Option<f64> {
    model.least_voltage.as_ref().map(|least| least.value.as_volts()).filter(|least| *least > 0.0)
}

/// Whether a converter without a delay would not switch on and off without end.
fn differ(on: Voltage, off: Voltage) -> bool {
    on.as_volts() - off.as_volts() >= SMALLEST_HYSTERESIS_V
}

/// Thresholds at the capacitor that the simulator takes: above 0, and as far apart as without a delay they must be where
/// rounding or a rectifier that eats both has moved them.
fn thresholds(on_v: f64, off_v: f64, delay_s: f64) -> (f64, f64) {
    let on_v = on_v.max(0.1);
    let gap_v = if delay_s > 0.0 { 0.0 } else { SMALLEST_HYSTERESIS_V };
    (on_v, off_v.min(on_v - gap_v).max(0.05))
}

/// Power that a stage and all below it take while everything boots, in watts at its source, cables included as far as
/// the source's nominal voltage times the sum of currents tells.
fn boot_power_below(site: &Site, layout: &Layout, stage: usize) -> f64 {
    let laid = &layout.stages[stage];
    let nominal_v = laid.voltage_v[Corner::Nominal.index()];
    let of = |demand: Demand| demand.current_at(nominal_v, 0.0) * nominal_v;
    laid.terminal
        .iter()
        .enumerate()
        .map(|(node, terminal)| match *terminal {
            StageNode::Station(index) => {
                of(station_demand(site, &site.stations[index], Activity::Booting, true, Corner::Adverse))
            }
            StageNode::BoxInput(index) => {
                let model = site.box_model(&site.boxes[index]);
                let own_w = of(box_demand(model, Corner::Adverse));
                let converter = laid.converters.iter().find(|converter| converter.node == node);
                own_w
                    + converter.map_or(0.0, |converter| {
                        boot_power_below(site, layout, converter.stage) / converter.efficiency
                    })
            }
            _ => 0.0,
        })
        .sum()
}
