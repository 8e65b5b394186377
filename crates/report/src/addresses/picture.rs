//! Switch settings in characters, as they look on the device.

use latchline_site::addresses::SwitchSetting;

/// The picture of a setting: lines of plain characters.
///
/// A rotary switch is its row of positions with the one that is set in brackets; on a bank of DIP switches the `#` stands up
/// for ON; a jumper that is fitted is `=`.
pub fn picture(label: &str, setting: &SwitchSetting) -> Vec<String> {
    match setting {
        SwitchSetting::Rotary { positions, at } => {
            let names: Vec<&str> = label.split_whitespace().collect();
            let dial = |(index, at): (usize, &u32)| {
                let name = name_of_dial(&names, index, at_len(setting));
                let row: String = (0..*positions)
                    .map(|position| match position == *at {
                        true => format!("[{position:X}]"),
                        false => format!(" {position:X} "),
                    })
                    .collect();
                (name, row)
            };
            let dials: Vec<(String, String)> = at.iter().enumerate().map(dial).collect();
            let widest = dials.iter().map(|(name, _)| name.chars().count()).max().unwrap_or(0);
            dials.iter().map(|(name, row)| format!("{name:<widest$}  {}", row.trim_end())).collect()
        }
        SwitchSetting::Dip { first_switch, on } => {
            let mark = |wanted: bool| -> String {
                on.iter().map(|on| if *on == wanted { "  #" } else { "  ." }).collect()
            };
            let numbers: String =
                (*first_switch..).zip(on).map(|(number, _)| format!("{number:>3}")).collect();
            let indent = " ".repeat(label.chars().count());
            vec![
                format!("{label}  ON {}", mark(true)),
                format!("{indent}     {}", mark(false)),
                format!("{indent}     {numbers}"),
            ]
        }
        SwitchSetting::Jumpers { fitted } => {
            let row: String = fitted.iter().map(|fitted| if *fitted { "  =" } else { "  :" }).collect();
            let numbers: String = (1..=fitted.len()).map(|number| format!("{number:>3}")).collect();
            let indent = " ".repeat(label.chars().count());
            vec![format!("{label}  {row}"), format!("{indent}  {numbers}")]
        }
        SwitchSetting::Keyed { digits } => {
            let keys: String = digits.chars().map(|digit| format!("[{digit}]")).collect();
            vec![format!("{label}  {keys}")]
        }
    }
}

fn at_len(setting: &SwitchSetting) -> usize {
    match setting {
        SwitchSetting::Rotary { at, .. } => at.len(),
        _ => 0,
    }
}

/// What stands beside one of several dials: the last words of the label name them one by one.
fn name_of_dial(names: &[&str], index: usize, dials: usize) -> String {
    match names.len().checked_sub(dials) {
        Some(lead) if dials > 1 => {
            let own = names[lead + index];
            let whole: Vec<&str> = names[..lead].iter().copied().chain([own]).collect();
            whole.join(" ")
        }
        _ => names.join(" "),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 27 is two tens and seven units; 0x2A is 42.
    #[test]
    fn rotary_switches_are_rows_with_the_position_in_brackets() {
        let setting = SwitchSetting::Rotary { positions: 10, at: vec![2, 7] };
        assert_eq!(
            picture("FLAT tens units", &setting),
            ["FLAT tens    0  1 [2] 3  4  5  6  7  8  9", "FLAT units   0  1  2  3  4  5  6 [7] 8  9"]
        );
        let setting = SwitchSetting::Rotary { positions: 16, at: vec![10] };
        assert_eq!(picture("DOOR", &setting), ["DOOR   0  1  2  3  4  5  6  7  8  9 [A] B  C  D  E  F"]);
    }

    #[test]
    fn dip_switches_stand_up_for_on_and_jumpers_lie_across() {
        let setting = SwitchSetting::Dip { first_switch: 3, on: vec![true, false] };
        assert_eq!(picture("S1", &setting), ["S1  ON   #  .", "         .  #", "         3  4"]);
        let setting = SwitchSetting::Jumpers { fitted: vec![false, true] };
        assert_eq!(picture("J", &setting), ["J    :  =", "     1  2"]);
        let setting = SwitchSetting::Keyed { digits: String::from("02") };
        assert_eq!(picture("SET", &setting), ["SET  [0][2]"]);
    }
}
