//! Text broken into lines.

use latchline_finding::shown;
use unicode_width::UnicodeWidthStr;

/// Columns that a text takes on a terminal.
pub fn width(text: &str) -> usize {
    UnicodeWidthStr::width(text)
}

/// Breaks at spaces, within a command only where it is longer than a line, so that what is printed can be pasted; words longer than a line
/// break after hyphens and slashes, else anywhere. What is hidden in the text is shown.
pub fn wrap(text: &str, most: usize) -> Vec<String> {
    let text = &*shown::whole(text, &[]);
    let most = most.max(1);
    let mut lines = vec![String::new()];
    let mut used = 0;
    let words: Vec<&str> = text.split(' ').collect();
    let mut rest = &words[..];
    while !rest.is_empty() {
        let (unbroken, after) = rest.split_at(of_command(rest));
        let long = unbroken.iter().map(|word| width(word)).sum::<usize>() + unbroken.len() - 1;
        let (unbroken, after) = if long <= most { (unbroken, after) } else { rest.split_at(1) };
        put(&unbroken.join(" "), most, &mut lines, &mut used);
        rest = after;
    }
    lines
}

/// How many of the words that come next are one command of the program: all behind its name that a sentence would not have, such as names of files,
/// options and their values.
fn of_command(words: &[&str]) -> usize {
    if words[0].trim_start_matches(['(', '"']) != "latchline" {
        return 1;
    }
    let ends = |word: &str| word.ends_with(['.', ',', ';', ':', ')', '?']);
    let mut count = 1;
    while count < words.len() && !ends(words[count - 1]) {
        let word = words[count];
        let is_plain = word.chars().all(|sign| sign.is_lowercase() || matches!(sign, '.' | ',' | ';' | ')'));
        // The name of a command is a plain word, and `ask` has another behind it.
        let may_be_plain = count == 1 || (count == 2 && words[1] == "ask");
        if word.is_empty() || (is_plain && !may_be_plain && !word.contains(".toml")) {
            break;
        }
        count += 1;
    }
    count
}

/// A word, or a command, at the end of the lines.
fn put(word: &str, most: usize, lines: &mut Vec<String>, used: &mut usize) {
    let long = width(word);
    if *used > 0 && *used + 1 + long > most {
        lines.push(String::new());
        *used = 0;
    } else if *used > 0 {
        push(lines, " ");
        *used += 1;
    }
    if long <= most {
        push(lines, word);
        *used += long;
        return;
    }
    for part in word.split_inclusive(['-', '/', '_']) {
        if *used > 0 && *used + width(part) > most {
            lines.push(String::new());
            *used = 0;
        }
        for sign in part.chars() {
            let mut bytes = [0; 4];
            let sign = sign.encode_utf8(&mut bytes);
            if *used > 0 && *used + width(sign) > most {
                lines.push(String::new());
                *used = 0;
            }
            push(lines, sign);
            *used += width(sign);
        }
    }
}

fn push(lines: &mut [String], text: &str) {
    if let Some(line) = lines.last_mut() {
        line.push_str(text);
    }
}

#[cfg(test)]
mod tests {
    use super::wrap;

    /// A shell takes each line for itself.
    #[test]
    fn a_command_is_not_broken() {
        let text = "Each is tried with those before it done. To do J1: latchline fix n.toml --job J1 --write; then check again, the numbers are new.";
        assert_eq!(
            wrap(text, 72),
            [
                "Each is tried with those before it done. To do J1:",
                "latchline fix n.toml --job J1 --write; then check again, the numbers are",
                "new."
            ]
        );
        // The sentence behind it goes on.
        let text = "Nothing: latchline ask lock LOCK --length METRES says which cable does.";
        assert_eq!(
            wrap(text, 30),
            ["Nothing: latchline ask lock", "LOCK --length METRES says", "which cable does."]
        );
        assert_eq!(
            wrap(text, 45),
            ["Nothing:", "latchline ask lock LOCK --length METRES says", "which cable does."]
        );
        // One that is longer than a line breaks like other text.
        assert_eq!(
            wrap("latchline locate site.toml A-1=dead", 20),
            ["latchline locate", "site.toml A-1=dead"]
        );
    }
}
