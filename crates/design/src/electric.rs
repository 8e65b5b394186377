//! What a run alone can bear: a chain or tree of stations at the adverse corner, fed from an ideal head.
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
    /// What every station and box must have above its limit while calls stand, in volts.
    pub margin_v: f64,
}

impl StationLoad {
    /// A branch box as a load: what it draws itself, in every state.
    pub fn of_box(own: Draw, least_v: f64) -> StationLoad {
        StationLoad {
            standby: own,
            ringing: own,
            talking: own,
            in_use: own,
            boot: own,
            drop_v: 0.0,
            least_v,
            least_standby_v: least_v,
            share: 0.0,
        }
    }
}

/// One section and the station or branch box at its end. A run is a list of them, each behind the one that it
/// hangs on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Link<'a> {
    /// Loop resistance of the section in ohms.
    pub ohm: f64,
    /// What is at its end.
    pub load: &'a StationLoad,
    /// Position of the main station of the same dwelling, which rings together with it; its own for a box.
    pub main: usize,
    /// Position of the link that it hangs on; `None`: the port.
    pub behind: Option<usize>,
    /// Whether a branch box is at its end.
    pub is_box: bool,
}

const MOST_SWEEPS: usize = 200;
const SETTLED_V: f64 = 1e-7;

/// Scratch space for sweeps.
#[derive(Debug, Default)]
pub struct Sweep {
    voltage_v: Vec<f64>,
    current_a: Vec<f64>,
    in_use: Vec<bool>,
    /// Resistance from the port to each.
    ohm: Vec<f64>,
}

/// Which stations do what.
#[derive(Clone, Copy, PartialEq)]
enum State {
    Boot,
    Calls,
    AllCall,
}

impl Sweep {
    /// Whether the run can bear every state with `calls` calls at once.
    pub fn bears(&mut self, head: &Head, run: &[Link<'_>], calls: usize, all_call: bool) -> bool {
        if !self.state(head, run, State::Boot) {
            return false;
        }
        if all_call && !self.state(head, run, State::AllCall) {
            return false;
        }
        // The farthest dwelling in use with the heaviest of the others: one admissible set, and in chains of
        // equal stations the worst one.
        self.ohm.clear();
        for link in run {
            self.ohm.push(link.ohm + link.behind.map_or(0.0, |behind| self.ohm[behind]));
        }
        let farthest = (0..run.len()).filter(|at| !run[*at].is_box).max_by(|a, b| {
            self.ohm[*a].total_cmp(&self.ohm[*b]) // of equals the last
        });
        let mut chosen: Vec<usize> = farthest.iter().map(|at| run[*at].main).take(calls).collect();
        while chosen.len() < calls {
            let mut best: Option<(f64, usize)> = None;
            for (at, link) in run.iter().enumerate() {
                if link.main != at || link.is_box || chosen.contains(&at) {
                    continue;
                }
                let in_use_a = link.load.in_use.power_w / head.voltage_v + link.load.in_use.current_a;
                let weight = in_use_a * self.ohm[at];
                if best.is_none_or(|(most, _)| weight > most) {
                    best = Some((weight, at));
                }
            }
            let Some((_, at)) = best else { break };
            chosen.push(at);
        }
        // While ringing all stations of the dwelling are in use.
        self.in_use.clear();
        self.in_use.extend(run.iter().map(|link| !link.is_box && chosen.contains(&link.main)));
        self.state(head, run, State::Calls)
    }

    fn state(&mut self, head: &Head, run: &[Link<'_>], state: State) -> bool {
        self.voltage_v.clear();
        self.voltage_v.resize(run.len(), head.voltage_v);
        for _ in 0..MOST_SWEEPS {
            let mut total_a = 0.0;
            self.current_a.clear();
            self.current_a.resize(run.len(), 0.0);
            for (at, link) in run.iter().enumerate().rev() {
                let load = link.load;
                let draw = match state {
                    State::Boot => load.boot,
                    State::Calls if self.in_use[at] => load.in_use,
                    State::AllCall => load.in_use,
                    State::Calls => load.standby,
                };
                self.current_a[at] += draw.at(self.voltage_v[at], load.drop_v);
                match link.behind {
                    Some(behind) => self.current_a[behind] += self.current_a[at],
                    None => total_a += self.current_a[at],
                }
            }
            if total_a > head.limit_a {
                return false;
            }
            let port_v = head.voltage_v - head.resistance_ohm * total_a;
            let mut change_v = 0.0f64;
            for (at, link) in run.iter().enumerate() {
                let before_v = link.behind.map_or(port_v, |behind| self.voltage_v[behind]);
                let here_v = before_v - link.ohm * self.current_a[at];
                let used = state == State::AllCall || (state == State::Calls && self.in_use[at]);
                let least_v = if used { link.load.least_v } else { link.load.least_standby_v };
                let margin_v = if state == State::Calls { head.margin_v } else { 0.0 };
                if here_v < least_v + margin_v {
                    return false;
                }
                change_v = change_v.max((self.voltage_v[at] - here_v).abs());
                self.voltage_v[at] = here_v;
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
        let head = Head { voltage_v: 48.0, resistance_ohm: 0.0, limit_a: f64::INFINITY, margin_v: 0.0 };
        let bears = |power_w: f64, least_v: f64| {
            let mut load = station(power_w);
            load.least_standby_v = least_v;
            load.least_v = least_v;
            Sweep::default().bears(
                &head,
                &[Link { ohm: 10.0, load: &load, main: 0, behind: None, is_box: false }],
                1,
                false,
            )
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
        let link =
            |at: usize| Link { ohm: 0.0, load: &load, main: at, behind: at.checked_sub(1), is_box: false };
        let chain = [link(0), link(1)];
        let head = |limit_a| Head { voltage_v: 50.0, resistance_ohm: 0.0, limit_a, margin_v: 0.0 };
        assert!(Sweep::default().bears(&head(0.4001), &chain, 2, false));
        assert!(!Sweep::default().bears(&head(0.3999), &chain, 2, false));
    }

    /// Two stations behind a box see each other's current on the common section only: with 10 ohm to the box, 5 ohm to
    /// each and 0.1 A each, 48 - 2 - 0.5 = 45.5 V (Ohm's law).
    #[test]
    fn branches_share_what_they_have_in_common() {
        let head = Head { voltage_v: 48.0, resistance_ohm: 0.0, limit_a: f64::INFINITY, margin_v: 0.0 };
        let bears = |least_v: f64| {
            let mut load = station(0.0);
            load.boot.current_a = 0.1;
            load.least_standby_v = least_v;
            let own = StationLoad { least_v: 0.0, least_standby_v: 0.0, ..station(0.0) };
            let link =
                |ohm: f64, load, main: usize, behind| Link { ohm, load, main, behind, is_box: main == 0 };
            let run = [link(10.0, &own, 0, None), link(5.0, &load, 1, Some(0)), link(5.0, &load, 2, Some(0))];
            Sweep::default().bears(&head, &run, 1, false)
        };
        assert!(bears(45.499));
        assert!(!bears(45.501));
    }
}
