/**
 * Advance widths of Sofia Sans Semi Condensed (OFL-1.1) in thousandths of the em, without kerning. Written by
 * scripts/make-advance-widths.mjs from the typeface's files; not to be edited. Per weight: the first character of a run and its
 * widths in base 36; 0 = the typeface has no such character.
 */
export const CAPITAL_HEIGHT = 655;

export const ADVANCE_WIDTHS = {
  regular: [
    [
      0x20,
      '5n 67 8x fq gk oq hh 4x 76 76 b4 fw 6a cu 68 9t fb c3 e7 eh ed du f0 dv f6 fa 67 6c fw fw fw cf q1 eu f7 gp gw e5 df h8 hf 6p 6w fo cm kb hg gy eg gy fx ew e6 h0 ff mf ek e6 ec 75 9t 75 dc dt 5t d2 e6 dm ea dp 9p dm eo 67 66 d0 66 m8 eo e4 e6 ea 9j c8 aa eb d4 iy co d3 c9 74 6r 74 fw',
    ],
    [
      0xa0,
      '5n 66 gk gk gk gl 6r cl 8u io ab d8 fw cu fi 7f ab fw ak al 5t em g4 6i 5l ak ah d8 np ow nh cc eu eu eu eu eu eu m0 gp e5 e5 e5 e5 6p 6p 6p 6p gx hg gy gy gy gy gy fw gy h0 h0 h0 h0 e6 eg eb d2 d2 d2 d2 d2 d2 kk dm dp dp dp dp 67 67 67 67 e1 eo e4 e4 e4 e4 e4 fw e4 eb eb eb eb d3 e6 d3 eu d2 eu d2 eu d2 gp dm 0 0 gp dm gp dm gw ea gx ea e5 dp 0 0 e5 dp e5 dp e5 dp 0 0 h8 dm h8 dm h8 dm 0 0 hf ep 0 0 6p 67 0 0 6p 67 6p 67 dl cd 0 0 fo d0 d0 cm 66 cm 66 cm 66 0 0 cm 67 hg eo hg eo hg eo 0 hg eo gy e4 0 0 gy e4 n2 m3 fx 9j fx 9j fx 9j ew c8 0 0 ew c8 ew c8 e6 aa e6 af e6 aa 0 0 h0 eb 0 0 h0 eb h0 eb h0 eb mf iy e6 d3 e6 ec c9 ec c9 ec c9 0',
    ],
    [0x218, 'ew c8 e6 aa'],
    [
      0x370,
      '0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 4r 8l f1 68 g5 jf 8p 0 hy 0 hl hy 8k eu f7 ci eq e5 ec hf gy 6p f8 eo kb hg er gy hd eg 0 dm e6 e6 ld ek ku gy 6p e6 ei d1 f6 8k eo ei ea da e5 d1 bj f6 ex 8k cs dg em d9 bt e4 fm e2 db em cy eo k5 d6 kd kk 8k eo e4 eo kk 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0',
    ],
    [
      0x400,
      'e5 e5 jg ci g0 ew 6p 6p 6w mw pl jg fc hc ej hc eu f1 f7 ci g3 e5 mm f8 hc hc fc eo kb hf gy hd eg gp e6 ej lx ek hb gl ng np hg ll ew fy n2 fy d2 ec e7 cj e8 dp ik ch eb eb cv c4 gn ed e4 eo e6 dm m8 d3 ii co ej dt lw m5 fa j3 dh de jb df dp dp eo cj dk c8 67 67 66 ji ln ep cv eb d3 eb',
    ],
    [
      0x2010,
      '0 0 0 jf n3 0 0 0 68 6a 6a 0 ak am am 0 cx db 7w 0 0 0 id 0 0 0 0 0 0 0 0 0 zf 0 0 0 0 0 0 0 0 8m 8l',
    ],
    [
      0x2070,
      'ak 0 0 0 ak ak al ak al ak 0 0 0 0 0 0 ak ak ak al ak ak al ak al ak 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0',
    ],
    [0x20ac, 'gk'],
    [0x2116, 'px 0 0 0 0 0 0 0 0 0 0 0 lk 0 0 0 0'],
    [0x2190, 'ot ot ot ot 11a ot ot ot ot ot'],
    [
      0x2200,
      '0 0 e2 0 0 0 eq 0 0 0 0 0 0 0 0 gy 0 cf fw 0 0 0 0 0 0 0 ei 0 0 0 fw 0 0 0 0 0 0 0 0 0 0 0 0 b0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 fw 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 fw 0 0 0 fw fw',
    ],
  ],
  strong: [
    [
      0x20,
      '5j 6k 9m fy gl ou hm 58 7a 7a b3 fw 6q ct 6o a5 fj cg ed ep es e5 f9 e6 fe fi 6l 6t fw fw fw cq q1 f8 ff gv h1 e9 dl hc hj 6w 73 fz cs kk hl h3 en h3 g3 ez ec h5 fr ms ey el ej 7a a5 7a dl dz 66 d8 e9 ds ed dv 9x dp eq 6d 6c dd 6c m7 eq e9 e9 ed 9o cd ag ee dd jb d2 dc cf 7g 6u 7g fw',
    ],
    [
      0xa0,
      '5j 6j gl gl gn go 6u cu 9g il ag di fw ct fd 7o ac fw b2 b3 66 en g7 6y 5w b2 aj di pc qg p2 cn f8 f8 f8 f8 f8 f8 m8 gv e9 e9 e9 e9 6w 6w 6w 6w h2 hl h3 h3 h3 h3 h3 fw h3 h5 h5 h5 h5 el en en d8 d8 d8 d8 d8 d8 kr ds dv dv dv dv 6d 6d 6d 6d e4 eq e9 e9 e9 e9 e9 fw e9 ee ee ee ee dc e9 dc f8 d8 f8 d8 f8 d8 gv ds 0 0 gv ds gv ds h1 ed h2 ee e9 dv 0 0 e9 dv e9 dv e9 dv 0 0 hc dp hc dp hc dp 0 0 hj et 0 0 6w 6d 0 0 6w 6d 6w 6d dz cp 0 0 fz dd dd cs 6c cs 6c cs 6c 0 0 cs 6e hl eq hl eq hl eq 0 hl eq h3 e9 0 0 h3 e9 n8 m9 g3 9o g3 9o g3 9o ez cd 0 0 ez cd ez cd ec ag ec aq ec ag 0 0 h5 ee 0 0 h5 ee h5 ee h5 ee ms jb el dc el ej cf ej cf ej cf 0',
    ],
    [0x218, 'ez cd ec ag'],
    [
      0x370,
      '0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 5b 9e fq 6o gv k6 9i 0 io 0 ij ip 8p f8 ff ck ew e9 ej hj h3 6w fn f2 kk hl ew h3 hh en 0 ds ec el lk ey l4 h4 6w el ei d7 f8 8p er ei ef dl ea d7 bt f8 f0 8p d7 dq en di c1 e9 fv e5 dh eu d6 er kd dd kk ko 8p er e9 er ko 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0',
    ],
    [
      0x400,
      'e9 e9 jh ck g7 ez 6w 6w 73 n9 pq jh fo hg ex hg f8 f9 ff ck gi e9 n1 fe hg hg fo f2 kk hj h3 hh en gv ec ex m4 ey hl gq nn o0 hn lz f3 g6 na g1 d8 ef ea co eb dv j7 co ee ee d9 ch gt eg e9 eq e9 ds m7 dc iq d2 er dw lw ma fe jh dm dj jk dm dv dv es co do cd 6d 6d 6c jq lp et d9 ee dc ee',
    ],
    [
      0x2010,
      '0 0 0 jg n4 0 0 0 6o 6q 6q 0 bh bj bj 0 d5 dh 8c 0 0 0 jk 0 0 0 0 0 0 0 0 0 zj 0 0 0 0 0 0 0 0 8n 8l',
    ],
    [
      0x2070,
      'b2 0 0 0 b2 b2 b3 b2 b3 b2 0 0 0 0 0 0 b2 b2 b2 b3 b2 b2 b3 b2 b3 b2 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0',
    ],
    [0x20ac, 'gl'],
    [0x2116, 'q5 0 0 0 0 0 0 0 0 0 0 0 lg 0 0 0 0'],
    [0x2190, 'oq oq oq oq 11l oq oq oq oq oq'],
    [
      0x2200,
      '0 0 e7 0 0 0 ew 0 0 0 0 0 0 0 0 h9 0 cp fw 0 0 0 0 0 0 0 es 0 0 0 fw 0 0 0 0 0 0 0 0 0 0 0 0 b1 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 fw 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 fw 0 0 0 fw fw',
    ],
  ],
} as const;
