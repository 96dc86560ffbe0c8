/** Publications that several definitions name. */
export const SLETTEN = 'Sletten et al., J Hand Surg Eur, doi 10.1177/1753193412461582';
export const LAMRASKI = 'Lamraski et al., J Orthop Res 2006;24:37–45';
export const BHANDARI = 'Bhandari et al., Plast Aesthet Res 2017;4:174–177';
