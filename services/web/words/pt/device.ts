/** Draft: no native speaker has read it. The page as something that this device keeps. */
export const device = {
  newer: 'Há uma versão mais nova desta página. Ao tomá-la, perde-se o que escreveu aqui: envie primeiro.',
  takeNewer: 'Tomar a versão mais nova',
  keepTitle: 'Guardar esta página neste aparelho',
  keep: 'Assim abre como qualquer outro programa, também sem rede, e mostra o que foi visto por último.',
  keepNow: 'Guardar aqui',
} as const;
