//! The discrete state: converters, ports and supply as small machines with timers.

use super::stage::Stage;
use super::{Converter, EVENT_TOLERANCE_V, PortLimit, SupplyLimit, System};

/// Timers closer than this are due together, s.
pub(super) const SAME_INSTANT_S: f64 = 1e-9;
/// A delay below this counts as none: the start itself is then located.
pub(super) const SHORTEST_DELAY_S: f64 = 1e-6;
/// Relative width within which a limiter's or trip's threshold is located.
const LIMIT_TOLERANCE: f64 = 1e-3;

/// State of a converter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Phase {
    Off,
    Waiting {
        ready_s: f64,
    },
    Boot {
        until_s: f64,
    },
    Running,
    /// A device without a converter.
    Absent,
}

/// State of the supply.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum SupplyPhase {
    On { since_s: f64, limiting_since_s: Option<f64> },
    Off { until_s: f64 },
}

/// State of a port.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum PortPhase {
    Closed {
        above_since_s: Option<f64>,
    },
    /// `until_s` is infinite for a port that has latched open.
    Open {
        until_s: f64,
    },
}

/// Something that has just switched.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Switching {
    Started(usize),
    CameUp(usize),
    DroppedOut(usize),
    SupplyTripped,
    SupplyReturned,
    PortTripped(usize),
    PortClosed(usize),
}

/// Stands for a device's converter that is not there: never starts, never stops, takes nothing.
const NO_CONVERTER: Converter = Converter {
    turn_on_v: f64::INFINITY,
    turn_off_v: f64::NEG_INFINITY,
    delay_s: 0.0,
    boot_power_w: 0.0,
    boot_time_s: 0.0,
    running_power_w: 0.0,
};

/// A converter's threshold that steps must end on.
pub(super) struct Crossing {
    pub device: usize,
    pub level_v: f64,
    pub upwards: bool,
    /// How far it is passed, V; negative before it is reached.
    pub beyond_v: f64,
}

/// All machines together.
pub(super) struct Discrete<'a> {
    system: &'a System,
    /// Of each device, close together since every step looks at all; [`NO_CONVERTER`] where there is none.
    pub converters: Vec<Converter>,
    pub devices: Vec<Phase>,
    pub supply: SupplyPhase,
    pub ports: Vec<PortPhase>,
}

impl<'a> Discrete<'a> {
    pub fn new(system: &'a System) -> Self {
        Self {
            system,
            converters: system.devices.iter().map(|d| d.converter.unwrap_or(NO_CONVERTER)).collect(),
            devices: system
                .devices
                .iter()
                .map(|d| if d.converter.is_some() { Phase::Off } else { Phase::Absent })
                .collect(),
            supply: SupplyPhase::On { since_s: 0.0, limiting_since_s: None },
            ports: system
                .ports
                .iter()
                .map(|p| {
                    if p.closes_at_s > 0.0 {
                        PortPhase::Open { until_s: p.closes_at_s }
                    } else {
                        PortPhase::Closed { above_since_s: None }
                    }
                })
                .collect(),
        }
    }

    /// Open-circuit voltage of the supply at a time, V.
    pub fn open_v(&self, time_s: f64) -> f64 {
        let full = self.system.supply.voltage_v;
        let ramp = self.system.supply.ramp_time_s;
        match self.supply {
            SupplyPhase::Off { .. } => 0.0,
            SupplyPhase::On { since_s, .. } if ramp > 0.0 => {
                full * ((time_s - since_s) / ramp).clamp(0.0, 1.0)
            }
            SupplyPhase::On { .. } => full,
        }
    }

    /// The next instant at which a timer runs out, s; infinite for none.
    pub fn next_timer_s(&self, now_s: f64) -> f64 {
        let mut next = f64::INFINITY;
        for phase in &self.devices {
            match *phase {
                Phase::Waiting { ready_s: at_s } | Phase::Boot { until_s: at_s } => {
                    next = next.min(at_s);
                }
                Phase::Off | Phase::Running | Phase::Absent => {}
            }
        }
        match self.supply {
            SupplyPhase::Off { until_s } => next = next.min(until_s),
            SupplyPhase::On { since_s, limiting_since_s } => {
                let ramp_end = since_s + self.system.supply.ramp_time_s;
                if ramp_end > now_s + SAME_INSTANT_S {
                    next = next.min(ramp_end);
                }
                if let (Some(since), SupplyLimit::Hiccup { trip_time_s, .. }) =
                    (limiting_since_s, self.system.supply.limit)
                {
                    next = next.min(since + trip_time_s);
                }
            }
        }
        for (phase, port) in self.ports.iter().zip(&self.system.ports) {
            match (*phase, port.limit) {
                (PortPhase::Open { until_s }, _) => next = next.min(until_s),
                (PortPhase::Closed { above_since_s: Some(since) }, PortLimit::Trip { trip_time_s, .. }) => {
                    next = next.min(since + trip_time_s)
                }
                _ => {}
            }
        }
        next
    }

    /// The converters' thresholds on which steps end.
    pub fn located<'v>(&'v self, state_v: &'v [f64]) -> impl Iterator<Item = Crossing> + 'v {
        let devices = self.devices.iter().zip(&self.converters).zip(state_v).enumerate();
        devices.filter_map(|(device, ((phase, c), &u))| match phase {
            Phase::Off if c.delay_s < SHORTEST_DELAY_S => {
                Some(Crossing { device, level_v: c.turn_on_v, upwards: true, beyond_v: u - c.turn_on_v })
            }
            Phase::Boot { .. } | Phase::Running => {
                Some(Crossing { device, level_v: c.turn_off_v, upwards: false, beyond_v: c.turn_off_v - u })
            }
            Phase::Off | Phase::Waiting { .. } | Phase::Absent => None,
        })
    }

    /// How far the most advanced located threshold is passed, in units of its tolerance: negative
    /// while none is reached. `limiters` includes those of limiters and trips; their timers start
    /// at the limit and are reset 0.3 % below it.
    pub fn advance(&self, stage: &Stage, state_v: &[f64], time_s: f64, limiters: bool) -> f64 {
        let most_v = self.located(state_v).fold(f64::NEG_INFINITY, |most, one| most.max(one.beyond_v));
        let mut worst = most_v / EVENT_TOLERANCE_V;
        if !limiters {
            return worst;
        }
        if let (SupplyPhase::On { limiting_since_s, .. }, SupplyLimit::Hiccup { current_a, .. }) =
            (self.supply, self.system.supply.limit)
        {
            let beyond = stage.beyond_limit_v(self.open_v(time_s))
                / (LIMIT_TOLERANCE * stage.source_ohm() * current_a);
            worst = worst.max(if limiting_since_s.is_some() { -beyond - 3.0 } else { beyond });
        }
        for (i, (phase, port)) in self.ports.iter().zip(&self.system.ports).enumerate() {
            if let (PortPhase::Closed { above_since_s }, PortLimit::Trip { current_a, .. }) =
                (phase, port.limit)
            {
                let beyond = (stage.ports[i].current_a - current_a) / (LIMIT_TOLERANCE * current_a);
                worst = worst.max(if above_since_s.is_some() { -beyond - 3.0 } else { beyond });
            }
        }
        worst
    }

    /// Lets every machine do what is due at `time_s`, given the stage's present voltages. A limit
    /// found to be reached counts as reached since `reached_s`: now, or the jump just before.
    pub fn switch(
        &mut self,
        stage: &Stage,
        state_v: &[f64],
        time_s: f64,
        reached_s: f64,
        switched: &mut Vec<Switching>,
    ) {
        let due = |at_s: f64| at_s <= time_s + SAME_INSTANT_S;
        for (i, (phase, c)) in self.devices.iter_mut().zip(&self.converters).enumerate() {
            let u = state_v[i];
            let mut start = false;
            match *phase {
                Phase::Absent => {}
                Phase::Off if u >= c.turn_on_v - EVENT_TOLERANCE_V => {
                    if c.delay_s < SHORTEST_DELAY_S {
                        start = true;
                    } else {
                        *phase = Phase::Waiting { ready_s: time_s + c.delay_s };
                    }
                }
                // A tolerance below the threshold, so that waiting and off cannot alternate
                // without hysteresis.
                Phase::Waiting { .. } if u < c.turn_off_v - 2.0 * EVENT_TOLERANCE_V => {
                    *phase = Phase::Off;
                }
                Phase::Waiting { ready_s } if due(ready_s) => start = true,
                Phase::Boot { .. } | Phase::Running if u <= c.turn_off_v + EVENT_TOLERANCE_V => {
                    *phase = Phase::Off;
                    switched.push(Switching::DroppedOut(i));
                }
                Phase::Boot { until_s } if due(until_s) => {
                    *phase = Phase::Running;
                    switched.push(Switching::CameUp(i));
                }
                _ => {}
            }
            if start {
                switched.push(Switching::Started(i));
                if c.boot_time_s > 0.0 {
                    *phase = Phase::Boot { until_s: time_s + c.boot_time_s };
                } else {
                    *phase = Phase::Running;
                    switched.push(Switching::CameUp(i));
                }
            }
        }
        self.switch_supply(stage, time_s, reached_s, switched);
        self.switch_ports(stage, time_s, reached_s, switched);
    }

    fn switch_supply(&mut self, stage: &Stage, time_s: f64, reached_s: f64, switched: &mut Vec<Switching>) {
        let open_v = self.open_v(time_s);
        match &mut self.supply {
            SupplyPhase::Off { until_s } if *until_s <= time_s + SAME_INSTANT_S => {
                self.supply = SupplyPhase::On { since_s: time_s, limiting_since_s: None };
                switched.push(Switching::SupplyReturned);
            }
            SupplyPhase::Off { .. } => {}
            SupplyPhase::On { limiting_since_s, .. } => {
                let SupplyLimit::Hiccup { current_a, trip_time_s, off_time_s } = self.system.supply.limit
                else {
                    return;
                };
                let width = LIMIT_TOLERANCE * stage.source_ohm() * current_a;
                let beyond = stage.beyond_limit_v(open_v);
                match *limiting_since_s {
                    None if beyond >= -width => *limiting_since_s = Some(reached_s),
                    // Must leave the band by more than it takes to enter it.
                    Some(_) if beyond <= -2.0 * width => *limiting_since_s = None,
                    Some(since) if since + trip_time_s <= time_s + SAME_INSTANT_S => {
                        self.supply = SupplyPhase::Off { until_s: time_s + off_time_s };
                        switched.push(Switching::SupplyTripped);
                    }
                    _ => {}
                }
            }
        }
    }

    fn switch_ports(&mut self, stage: &Stage, time_s: f64, reached_s: f64, switched: &mut Vec<Switching>) {
        for (i, (phase, port)) in self.ports.iter_mut().zip(&self.system.ports).enumerate() {
            match phase {
                PortPhase::Open { until_s } if *until_s <= time_s + SAME_INSTANT_S => {
                    *phase = PortPhase::Closed { above_since_s: None };
                    switched.push(Switching::PortClosed(i));
                }
                PortPhase::Open { .. } => {}
                PortPhase::Closed { above_since_s } => {
                    let PortLimit::Trip { current_a, trip_time_s, retry_time_s } = port.limit else {
                        continue;
                    };
                    let width = LIMIT_TOLERANCE * current_a;
                    let beyond = stage.ports[i].current_a - current_a;
                    match *above_since_s {
                        None if beyond >= -width => *above_since_s = Some(reached_s),
                        Some(_) if beyond <= -2.0 * width => *above_since_s = None,
                        Some(since) if since + trip_time_s <= time_s + SAME_INSTANT_S => {
                            let wait = retry_time_s.unwrap_or(f64::INFINITY);
                            *phase = PortPhase::Open { until_s: time_s + wait };
                            switched.push(Switching::PortTripped(i));
                        }
                        _ => {}
                    }
                }
            }
        }
    }

    /// Power that the converter of a device takes in its present state, W.
    pub fn power_w(&self, device: usize) -> f64 {
        match self.devices[device] {
            Phase::Boot { .. } => self.converters[device].boot_power_w,
            Phase::Running => self.converters[device].running_power_w,
            Phase::Off | Phase::Waiting { .. } | Phase::Absent => 0.0,
        }
    }

    /// Limit of a device's bridge current in its present state, A.
    pub fn bridge_limit_a(&self, device: usize) -> f64 {
        match self.devices[device] {
            Phase::Boot { .. } | Phase::Running => f64::INFINITY,
            Phase::Off | Phase::Waiting { .. } | Phase::Absent => {
                self.system.devices[device].inrush_limit_a.unwrap_or(f64::INFINITY)
            }
        }
    }

    /// The state as numbers that are equal when the machines are in the same state with the same
    /// time left.
    pub fn fingerprint(&self, now_s: f64) -> Vec<(u8, f64)> {
        let left = |at_s: f64| if at_s.is_finite() { at_s - now_s } else { f64::MAX };
        let since = |at: Option<f64>| at.map_or((0, 0.0), |at_s| (1, now_s - at_s));
        let mut marks = Vec::with_capacity(self.devices.len() + self.ports.len() + 1);
        marks.push(match self.supply {
            SupplyPhase::Off { until_s } => (2, left(until_s)),
            SupplyPhase::On { limiting_since_s, .. } => since(limiting_since_s),
        });
        marks.extend(self.devices.iter().map(|phase| match *phase {
            Phase::Absent => (3, 0.0),
            Phase::Off => (4, 0.0),
            Phase::Waiting { ready_s } => (5, left(ready_s)),
            Phase::Boot { until_s } => (6, left(until_s)),
            Phase::Running => (7, 0.0),
        }));
        marks.extend(self.ports.iter().map(|phase| match *phase {
            PortPhase::Open { until_s } => (8, left(until_s)),
            PortPhase::Closed { above_since_s } => since(above_since_s),
        }));
        marks
    }
}
