//! The checksum of links and of PNG files.

/// What each value of a byte does to the checksum.
const TABLE: [u32; 256] = {
    let mut table = [0; 256];
    let mut byte = 0_u32;
    while byte < 256 {
        let mut rest = byte;
        let mut bit = 0;
        while bit < 8 {
            rest = if rest & 1 == 1 { rest >> 1 ^ 0xedb8_8320 } else { rest >> 1 };
            bit += 1;
        }
        table[byte as usize] = rest;
        byte += 1;
    }
    table
};

/// CRC-32 (ISO 3309, as PNG, annex D has it) of some bytes and of those after them: of nothing it is 0.
pub(crate) fn crc32(before: u32, bytes: &[u8]) -> u32 {
    !bytes.iter().fold(!before, |rest, &byte| TABLE[usize::from((rest.to_le_bytes()[0]) ^ byte)] ^ rest >> 8)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_checksum_is_that_of_the_standard() {
        // The check value of CRC-32 in the catalogue of parametrised CRC algorithms, CRC-32/ISO-HDLC.
        assert_eq!(crc32(0, b"123456789"), 0xcbf4_3926);
        assert_eq!(crc32(crc32(0, b"1234"), b"56789"), 0xcbf4_3926);
    }
}
