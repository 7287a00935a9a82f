//! What a PNG says of the size that it is meant for (PNG, third edition, 11.3.4.3).

/// What a PNG begins with, up to the fields of its head.
const HEAD: &[u8] = b"\x89PNG\r\n\x1a\n\0\0\0\x0dIHDR";
/// Where the first block ends: signature, then length, name, 13 bytes and sum of the head.
const HEAD_END: usize = 8 + 4 + 4 + 13 + 4;
const INCH: f64 = 0.0254;

/// `png` as one that is meant for so many dots to the inch; bytes that are no PNG as they are.
pub fn with_density(png: &[u8], per_inch: u32) -> Vec<u8> {
    let Some((head, rest)) = png
        .split_at_checked(HEAD_END)
        .filter(|_| png.starts_with(HEAD))
    else {
        return png.to_vec();
    };
    let per_metre = (f64::from(per_inch) / INCH).round();
    let per_metre = num_traits::ToPrimitive::to_u32(&per_metre).unwrap_or_default();
    // The same to the right and down, and the unit, which is the metre.
    let mut block = b"pHYs".to_vec();
    block.extend(per_metre.to_be_bytes());
    block.extend(per_metre.to_be_bytes());
    block.push(1);
    let sum = crc32fast::hash(&block).to_be_bytes();
    let length = 9_u32.to_be_bytes();
    [head, &length, &block, &sum, rest].concat()
}
