//! Texts and formulas as the file format takes them.

/// The most characters that a cell of a workbook holds.
pub(super) const MOST_CHARACTERS: usize = 32_767;

/// A number as a formula's cached result.
pub(super) fn plain(value: f64) -> String {
    // As many digits as it takes to read the same number again.
    format!("{value}")
}

/// The letters of a column, from 0.
pub(super) fn column_letters(index: u16) -> String {
    let mut letters = Vec::new();
    let mut rest = u32::from(index) + 1;
    while rest > 0 {
        letters.push(char::from(b'A' + ((rest - 1) % 26) as u8));
        rest = (rest - 1) / 26;
    }
    letters.iter().rev().collect()
}

/// A text cut to so many characters, UTF-16 units as the file format counts.
pub(super) fn shortened(text: &str, most: usize) -> String {
    if text.encode_utf16().count() <= most {
        return text.to_string();
    }
    let mut units = 0;
    let cut = text.chars().take_while(|sign| {
        units += sign.len_utf16();
        units < most
    });
    cut.collect::<String>() + "…"
}

/// Where a link to a sheet leads.
pub(super) fn address_of(tab: &str) -> String {
    // An apostrophe in a quoted name is doubled.
    format!("internal:'{}'!A1", tab.replace('\'', "''"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_are_lettered_as_in_spreadsheets() {
        assert_eq!([0, 25, 26, 51, 701, 702].map(column_letters), ["A", "Z", "AA", "AZ", "ZZ", "AAA"]);
    }

    #[test]
    fn long_texts_are_cut_by_utf16_units() {
        assert_eq!(shortened("abc", 3), "abc");
        assert_eq!(shortened("abcd", 3), "ab…");
        assert_eq!(shortened("😀😀", 3), "😀…");
    }
}
