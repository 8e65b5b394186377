//! What a run alone can bear: a chain of stations at the adverse corner, fed from an ideal head.
//!
//! The head is the best that any design can offer, so what fails here fails in every design: by
//! monotony a further load or resistance anywhere lowers every voltage and raises every current
//! (loads draw no more at a higher voltage: constant powers and currents; resistances are taken at their
//! least current). The sweep starts at the head's voltage and falls to the greatest solution from
//! above, so as soon as an iterate is below a limit the solution is. What passes is only a
//! candidate: the finished site is judged by the whole assessment.

/// What one station draws, in the adverse corner.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Draw {
    /// Constant power in watts, behind the rectifier drop.
    pub power_w: f64,
    /// Constant current in amperes.
    pub current_a: f64,
}

impl Draw {
    /// Current at a voltage; infinite where the power cannot be drawn.
    pub fn at(self, voltage_v: f64, drop_v: f64) -> f64 {
        let across = voltage_v - drop_v;
        let by_power = if self.power_w <= 0.0 {
            0.0
        } else if across > 0.0 {
            self.power_w / across
        } else {
            f64::INFINITY
        };
        by_power + self.current_a
    }
}

/// One station as a load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StationLoad {
    /// In standby at night.
    pub standby: Draw,
    /// Ringing, or calling.
    pub ringing: Draw,
    /// Talking, with release where it has one.
    pub talking: Draw,
    /// The larger of ringing and talking; ringing where the dwelling has further stations.
    pub in_use: Draw,
    /// While it boots.
    pub boot: Draw,
    /// Rectifier drop in volts.
    pub drop_v: f64,
    /// Least voltage in use.
    pub least_v: f64,
    /// Least voltage in standby.
    pub least_standby_v: f64,
    /// Share of a supply's datasheet count.
    pub share: f64,
}

/// What feeds a run, at its best.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Head {
    /// Voltage behind everything, at the low end of its tolerance.
    pub voltage_v: f64,
    /// Resistance up to the port, in ohms.
    pub resistance_ohm: f64,
    /// Current that the port gives, in amperes.
    pub limit_a: f64,
}

/// One section and the station at its end. `main` is the position of the first station of the same
/// dwelling, which rings together with it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Link<'a> {
    /// Loop resistance of the section in ohms.
    pub ohm: f64,
    /// The station.
    pub load: &'a StationLoad,
    /// Position of the main station of its dwelling in the chain.
    pub main: usize,
}

const MOST_SWEEPS: usize = 200;
const SETTLED_V: f64 = 1e-7;

/// Scratch space for sweeps.
#[derive(Debug, Default)]
pub struct Sweep {
    voltage_v: Vec<f64>,
    current_a: Vec<f64>,
    in_use: Vec<bool>,
}

/// Which stations do what.
#[derive(Clone, Copy, PartialEq)]
enum State {
    Boot,
    Calls,
    AllCall,
}

impl Sweep {
    /// Whether the chain can bear every state with `calls` calls at once.
    pub fn bears(&mut self, head: &Head, chain: &[Link<'_>], calls: usize, all_call: bool) -> bool {
        if !self.state(head, chain, State::Boot) {
            return false;
        }
        if all_call && !self.state(head, chain, State::AllCall) {
            return false;
        }
        // The last dwelling in use with the heaviest of the others: one admissible set, and in chains of
        // equal stations the worst one.
        self.in_use.clear();
        self.in_use.resize(chain.len(), false);
        let mut chosen: Vec<usize> = chain.last().iter().map(|last| last.main).take(calls).collect();
        while chosen.len() < calls {
            let mut best: Option<(f64, usize)> = None;
            let mut ohm = 0.0;
            for (at, link) in chain.iter().enumerate() {
                ohm += link.ohm;
                if link.main != at || chosen.contains(&at) {
                    continue;
                }
                let weight = (link.load.in_use.power_w / head.voltage_v + link.load.in_use.current_a) * ohm;
                if best.is_none_or(|(most, _)| weight > most) {
                    best = Some((weight, at));
                }
            }
            let Some((_, at)) = best else { break };
            chosen.push(at);
        }
        for (at, link) in chain.iter().enumerate() {
            // While ringing all stations of the dwelling are in use.
            self.in_use[at] = chosen.contains(&link.main);
        }
        self.state(head, chain, State::Calls)
    }

    fn state(&mut self, head: &Head, chain: &[Link<'_>], state: State) -> bool {
        self.voltage_v.clear();
        self.voltage_v.resize(chain.len(), head.voltage_v);
        self.current_a.clear();
        self.current_a.resize(chain.len(), 0.0);
        for _ in 0..MOST_SWEEPS {
            let mut total_a = 0.0;
            for at in (0..chain.len()).rev() {
                let load = chain[at].load;
                let draw = match state {
                    State::Boot => load.boot,
                    State::Calls if self.in_use[at] => load.in_use,
                    State::AllCall => load.in_use,
                    State::Calls => load.standby,
                };
                total_a += draw.at(self.voltage_v[at], load.drop_v);
                self.current_a[at] = total_a;
            }
            if total_a > head.limit_a {
                return false;
            }
            let mut above_v = head.voltage_v - head.resistance_ohm * total_a;
            let mut change_v = 0.0f64;
            for (at, link) in chain.iter().enumerate() {
                above_v -= link.ohm * self.current_a[at];
                let used = state == State::AllCall || (state == State::Calls && self.in_use[at]);
                let least_v = if used { link.load.least_v } else { link.load.least_standby_v };
                if above_v < least_v {
                    return false;
                }
                change_v = change_v.max((self.voltage_v[at] - above_v).abs());
                self.voltage_v[at] = above_v;
            }
            if change_v < SETTLED_V {
                break;
            }
        }
        true
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn station(power_w: f64) -> StationLoad {
        let draw = Draw { power_w, current_a: 0.0 };
        StationLoad {
            standby: draw,
            ringing: draw,
            talking: draw,
            in_use: draw,
            boot: draw,
            drop_v: 0.0,
            least_v: 1.0,
            least_standby_v: 1.0,
            share: 0.0,
        }
    }

    /// One constant power P over a resistance R has v = (V + sqrt(V² - 4 R P)) / 2 (quadratic formula):
    /// 48 V, 10 ohm, 20 W give 43.39 V, and above 57.6 W there is none.
    #[test]
    fn one_load_has_the_root_of_the_quadratic() {
        let head = Head { voltage_v: 48.0, resistance_ohm: 0.0, limit_a: f64::INFINITY };
        let bears = |power_w: f64, least_v: f64| {
            let mut load = station(power_w);
            load.least_standby_v = least_v;
            load.least_v = least_v;
            Sweep::default().bears(&head, &[Link { ohm: 10.0, load: &load, main: 0 }], 1, false)
        };
        let root = (48.0 + (48.0f64 * 48.0 - 4.0 * 10.0 * 20.0).sqrt()) / 2.0;
        assert!((root - 43.39).abs() < 0.005);
        assert!(bears(20.0, root - 1e-6));
        assert!(!bears(20.0, root + 1e-6));
        assert!(!bears(57.7, 1.0));
    }

    #[test]
    fn a_port_gives_no_more_than_its_limit() {
        let load = station(10.0);
        let chain = [Link { ohm: 0.0, load: &load, main: 0 }, Link { ohm: 0.0, load: &load, main: 1 }];
        let head = |limit_a| Head { voltage_v: 50.0, resistance_ohm: 0.0, limit_a };
        assert!(Sweep::default().bears(&head(0.4001), &chain, 2, false));
        assert!(!Sweep::default().bears(&head(0.3999), &chain, 2, false));
    }
}
