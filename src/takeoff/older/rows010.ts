/** Rows of Items that 0.1.0 wrote and nobody touched: a short number of each. Their units are not held against the office. */
import { shortHash } from '../../shortHash.js'

const ROW_COLUMNS = ['Code', 'When', 'Quantity', 'Unit'] as const
export const numberOfRow010 = (cells: Readonly<Record<string, unknown>>): string => shortHash([ROW_COLUMNS.map((column) => String(cells[column] ?? '')).join('\n')])

/** One for each row of items010.ts, which is too long for the pane; a test holds the two together. */
export const rows010: ReadonlySet<string> = new Set(
  `
  d767e2ff7e5e92f3 db63c51918514729 dce9fe88d6f3b1ec b781f82ae0c49e5a 31cd7dd39fd6f63f bb1e36b01a6529b8 a2e520020c51e936 75f18458c070d938 b9a47eaeeb9f85a6 b596c0e19e8ad1cd f33e8c49ce9ef269 c1d40d92eb92c7ee
  f3fc0e93e2e64fe7 5e69bb442d6756d8 a5bf92d1e3ac847d ed9d3cfcce4b8fe0 d0baf17dfcb89ee9 f91fc2c3c4c35ad3 0662452ac5273ce6 2340fc437e2c3b73 8eaf1b33856b91bf ec49ab82a890c44e 41eaee94e4639150 b5c94eb298ec8cce
  086adc8ce26a8104 f539166b49ddc61f 2f5be1b53ba30ddd 3549b40d282f8db9 5bc3c52c3ce43820 438e65f4cee4fe58 2c9e477537853491 a8c458600d069e8c 4e2ba8ccfe227794 753f5006684cf696 dc2961a7bd80af57 aa190453b225d10b
  bfebc389a6885dc1 5059add9ca743861 7c8293c67eea5fca d229f019e31356c5 2d3c6532cf389c76 59112bafe59cf277 bce06e0c208f9408 89a2c37cf8353e8c ce5aff9fecfd4a57 b9a4813fac3a1173 01334b9255064862 0fe3b613c8cc17c3
  6bc346cb2fcd1cc7 1817019977a57fa5 fba11167b22d08df ac966331d8a9bc99 b54c434886545fd8 c13a9b79fe424b05 7cec6fa794402a9f fe39610fc1485bbb 9883970bd5b734b7 9dc76bc7cbb889b3 b614e13fd5a9309b ad40306322b2fbc7
  f3e5222b16165ed3 4373c270690e3028 97e04db2a7211752 2d2b09732cd9fc03 9603e347702080eb 53f21cdff1736bcb 58dbd8fe948750d6 687be52822fdefac ab8f08b490a31d30 a3bb36a4ea63b70c 22f457b7a761fc27 678442c3e0826917
  7eef8ad2ce3268ba 0f75dea13602fec9 0721a997540a7757 edbf229e9d846c52 85caf131cdfc23d1 386ed9497ae86509 5a1609a42d8195d0 d6d99de4e3084350 bf1165dbfdcf8823 c546a042ce8301ce 962a0de4a06e6508 83bf7424321a91e0
  a2bbc4fac34db9fe 347e4a243bc8be44 c8a5aacb9671055b 60c51307c951973f 26701bab3f98d2ef 5cab087859fb7aa8 41c50820078b0794
`
    .trim()
    .split(/\s+/),
)
